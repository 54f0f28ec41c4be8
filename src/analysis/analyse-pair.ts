import { problem } from "../model/problem.ts";
import type { ChoiceRow, StudyRecord } from "../model/record.ts";
import type { Caveat, PairResult } from "../model/result.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { belowPlan, caveatsOfStudy, powerToFind } from "./caveats.ts";
import { type MarkedPair, markedPairs, onePerSeat } from "./marking.ts";
import { type PairCounts, pairStatistics } from "./pair.ts";
import { studyPart } from "./study-part.ts";

/** From this share of answers on, "no preference" is frequent (common practice, no source). */
const frequentNone = 0.2;

/** As `analyse`, for a paired preference. Each person counts once. */
export function analysePair(record: StudyRecord, app: string): PairResult {
  const { plan } = record;
  const { kept: marked, leftOut } = onePerSeat(markedPairs(record));
  const counted = pairStatistics(countsOf(plan, marked));
  const statistics = record.keyMatches ? counted : { ...counted, outcome: "withheld" as const };
  const orders = ["AB", "BA"].map((order) => {
    const served = marked.filter((answer) => answer.order === order);
    return { order, judgments: served.length, correct: served.filter(({ place }) => place === 1).length };
  });
  const caveats: Caveat[] = [
    ...caveatsOfStudy(
      record,
      marked,
      belowPlan(record, marked.length),
      orders.map(({ judgments }) => judgments),
    ),
    ...(leftOut.length > 0 ? [{ what: "person-once" as const, trays: leftOut }] : []),
    ...caveatsOfPreference(statistics, plan.standsFor),
  ];
  if (plan.panelType !== "consumers") {
    caveats.push({ what: "panel-not-customers", panelType: plan.panelType, standsFor: plan.standsFor });
  }
  return {
    v: 1,
    app,
    study: studyPart(record, marked),
    ...statistics,
    questions: [],
    sessions: null,
    orders,
    caveats,
    departures: record.departures,
  };
}

function countsOf(plan: StudyRecord["plan"], marked: readonly MarkedPair[]): PairCounts {
  const picked = (what: MarkedPair["picked"]) => marked.filter((answer) => answer.picked === what).length;
  const [first, second] = plan.products.map(({ name }) => name);
  return {
    products: [first ?? "", second ?? ""],
    alpha: plan.alpha,
    noPreference: plan.noPreference,
    first: picked("first"),
    second: picked("second"),
    none: picked("none"),
    // the plan names by how much the one side is to outnumber the other
    sought: { share: (1 + plan.discriminatorShareSought) / 2, people: plan.people },
  };
}

/** Caveats that follow from the statistics alone. */
function caveatsOfPreference(statistics: PairStatistics, standsFor: string): Caveat[] {
  const { noPreference, counts, people, power, outcome } = statistics;
  const list: Caveat[] = outcome === "withheld" ? [] : [{ what: "preference-not-size" }];
  list.push({ what: "this-panel-only", standsFor });
  const { none } = counts;
  if (noPreference === "split" && none > 0) list.push({ what: "none-split", none, leftOut: none % 2 });
  if (noPreference !== "split" && none > 0 && none >= frequentNone * people) {
    list.push({ what: "none-frequent", none, of: people });
  }
  if (power && power.power < powerToFind) {
    list.push({ what: "preference-plan-could-not-find", share: power.share, power: power.power });
  }
  return list;
}

/**
 * The result of three counts that came without a study.
 * Throws   what `pairStatistics` throws
 */
export function resultOfPair(counts: PairCounts, app: string): PairResult {
  const statistics = pairStatistics(counts);
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    questions: [],
    sessions: null,
    orders: [],
    caveats: caveatsOfPreference(statistics, ""),
    departures: [],
  };
}

/**
 * The result of single answers that came without a study.
 *
 * Takes    rows: one a person; given.products: as the rows name them, first and second
 * Throws   Problem "analysis/person-twice", "analysis/unknown-product", and what `pairStatistics` throws
 */
export function resultOfChoices(
  given: Pick<PairCounts, "products" | "alpha" | "noPreference">,
  rows: readonly ChoiceRow[],
  app: string,
): PairResult {
  const people = new Set<string>();
  for (const { panelist, choice } of rows) {
    if (people.has(panelist)) throw problem("analysis/person-twice", { panelist });
    people.add(panelist);
    if (choice !== null && !given.products.includes(choice))
      throw problem("analysis/unknown-product", { product: choice });
  }
  const votes = (product: string | null) => rows.filter(({ choice }) => choice === product).length;
  const [first, second] = given.products;
  return resultOfPair({ ...given, first: votes(first), second: votes(second), none: votes(null) }, app);
}
