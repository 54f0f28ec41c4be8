import { asKinds, type KindsMethod } from "../model/method.ts";
import type { KindRow, StudyRecord } from "../model/record.ts";
import type { KindsResult } from "../model/result.ts";
import { caveatsOfKinds, caveatsOfStudy, personOnce, tooFewAnswers } from "./caveats.ts";
import { seatName } from "./choice-people.ts";
import { type KindsCounts, kindsStatistics, type PersonKinds } from "./kinds.ts";
import { markedKinds, onePerSeat, ordersServed, servedOn } from "./marking.ts";
import { studyPart } from "./study-part.ts";

/** As `analyse`, for same-different and A-not-A. Trays of a seat beyond those planned stand for no further person. */
export function analyseKinds(record: StudyRecord, app: string): KindsResult {
  const { plan } = record;
  const all = markedKinds(record);
  const { kept: marked, leftOut } = plan.repeats === 1 ? onePerSeat(all) : { kept: all, leftOut: [] };
  const counted = kindsStatistics({
    ...countsOf(marked.map(({ seat, ...answer }) => ({ panelist: seatName(seat), ...answer }))),
    method: asKinds(plan.method),
    alpha: plan.alpha,
    confidence: plan.confidence,
    sought: plan.dPrimeSought === null ? null : { dPrime: plan.dPrimeSought, people: plan.people },
  });
  const statistics = record.keyMatches ? counted : { ...counted, outcome: "withheld" as const };
  const orders = ordersServed(record, marked).map((order) => {
    const served = marked.filter((answer) => answer.order === order);
    return { order, judgments: served.length, correct: served.filter(({ told }) => told).length };
  });
  return {
    v: 1,
    app,
    study: studyPart(record, servedOn(marked), app),
    ...statistics,
    orders,
    caveats: [
      ...caveatsOfStudy(
        record,
        servedOn(marked),
        tooFewAnswers(record, marked.length),
        orders.map(({ judgments }) => judgments),
      ),
      ...personOnce(leftOut),
      ...caveatsOfKinds(statistics, plan.standsFor),
    ],
    departures: record.departures,
  };
}

type Answer = { panelist: string; unlike: boolean; told: boolean };

function countsOf(answers: readonly Answer[]): Pick<KindsCounts, "unlike" | "like" | "panelists"> {
  const people = new Map<string, PersonKinds>();
  for (const { panelist, unlike, told } of answers) {
    const own = people.get(panelist) ?? { panelist, unlikeTold: 0, unlike: 0, likeTold: 0, like: 0 };
    people.set(panelist, own);
    own[unlike ? "unlike" : "like"] += 1;
    if (told) own[unlike ? "unlikeTold" : "likeTold"] += 1;
  }
  const panelists = [...people.values()];
  const total = (of: Exclude<keyof PersonKinds, "panelist">) => panelists.reduce((sum, own) => sum + own[of], 0);
  return {
    unlike: { told: total("unlikeTold"), of: total("unlike") },
    like: { told: total("likeTold"), of: total("like") },
    panelists,
  };
}

/**
 * The result of four counts that came without a study.
 * Throws   what `kindsStatistics` throws
 */
export function resultOfKinds(counts: KindsCounts, app: string): KindsResult {
  const statistics = kindsStatistics(counts);
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    orders: [],
    caveats: caveatsOfKinds(statistics, ""),
    departures: [],
  };
}

/**
 * The result of single answers that came without a study; several of one person are held against each other within
 * people.
 * Throws   what `kindsStatistics` throws
 */
export const resultOfKindRows = (
  given: { method: KindsMethod } & Pick<KindsCounts, "alpha" | "confidence">,
  rows: readonly KindRow[],
  app: string,
): KindsResult => resultOfKinds({ ...given, ...countsOf(rows) }, app);
