import type { Interval } from "../model/interval.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { PairResult } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { PreferenceFacts } from "../words/en/report-preference.ts";
import { type ChanceText, type FamilyText, type Row, rangeOf } from "./describe.ts";
import { pairParts } from "./describe-parts.ts";

/** What is said of a paired preference, or of a paired difference in which either product may have more. */
export function pairWords(result: PairResult, all: ReportWords): FamilyText {
  const { judgments, outcome } = result;
  const words = { ...all, preference: result.method === "paired-preference" ? all.preference : all.twoSided };
  const silent = judgments === 0 || outcome === "withheld";
  return {
    verdict: verdictOf(result, words),
    size: sizeOf(result, words),
    agreed: agreedOf(result, words),
    meaning: silent ? "" : meaningOf(result, words),
    chance: chanceOf(result, words),
    rows: rowsOf(result, words),
    attributes: [],
    parts: pairParts(result, words),
  };
}

const meaningOf = ({ pValue, alpha, tested, byPerson }: PairResult, { preference }: ReportWords): string =>
  byPerson ? preference.byPerson(pValue, alpha) : preference.pInWords(pValue, alpha, tested.first, tested.second);

/** Bounds of a share; none where people gave several answers. */
const boundsOf = (share: Interval) => (share.kind === "none" ? null : rangeOf(share));

/** The product with more of the counted votes; the first when both have as many. */
function leading({ products, tested, firstShare, secondShare }: PairResult) {
  const first = { product: products[0], votes: tested.first, share: firstShare };
  const second = { product: products[1], votes: tested.second, share: secondShare };
  return tested.second > tested.first ? { more: second, less: first } : { more: first, less: second };
}

function verdictOf(result: PairResult, { preference, twoSidedMore }: ReportWords): string {
  const { outcome } = result;
  const facts: PreferenceFacts = {
    ...leading(result),
    products: result.products,
    tested: result.tested,
    none: result.counts.none,
    noPreference: result.noPreference,
    judgments: result.judgments,
    needed: result.criticalNumber,
    alpha: result.alpha,
    planned: result.study !== null,
    leastForVerdict,
    byPerson: result.byPerson,
    people: result.people,
    pValue: result.pValue,
    shared: result.pValueAdjusted,
    comparative: result.property?.comparative.trim() || twoSidedMore,
  };
  if (outcome === "reached" || outcome === "not-reached" || outcome === "withheld") {
    return preference.verdict[outcome](facts);
  }
  return preference.verdict["too-few"](facts);
}

function sizeOf(result: PairResult, { preference }: ReportWords): string {
  const { outcome, noPreference, counts, people, products, ofAll } = result;
  const { more } = leading(result);
  if (outcome === "withheld") return preference.size.withheld;
  if (people === 0) return preference.size.none;
  const { estimate } = more.share;
  const counted =
    estimate === null
      ? ""
      : preference.size.share(more.product, estimate, boundsOf(more.share), noPreference, counts.none);
  if (noPreference !== "three-way" && counted !== "") return counted;
  if (ofAll.first.kind === "none") return counted;
  const ofEverybody = preference.size.threeWays(products[0], products[1], [
    shareOf(ofAll.first),
    shareOf(ofAll.second),
    shareOf(ofAll.none),
  ]);
  return [ofEverybody, counted].filter((text) => text !== "").join(" ");
}

const shareOf = (interval: Interval) => ({ estimate: interval.estimate ?? 0, ...rangeOf(interval) });

function agreedOf({ study, outcome }: PairResult, { agreed, preference }: ReportWords): string {
  if (!study) return agreed.noStudy;
  const step = outcome === "reached" || outcome === "not-reached" ? preference.agreed[outcome] : agreed[outcome];
  return step(study.ifYes, study.ifNo);
}

function chanceOf(result: PairResult, { preference }: ReportWords): ChanceText {
  const { criticalNumber, chanceAtCritical, guessingPanels, judgments, tested, products } = result;
  const { chance } = preference;
  const least = criticalNumber ?? judgments + 1;
  const dots = guessingPanels.reduce(
    (sum, panels, votes) => sum + (votes >= least || judgments - votes >= least ? panels : 0),
    0,
  );
  return {
    caption: result.byPerson
      ? chance.byPerson(judgments)
      : chance.caption(judgments, criticalNumber, chanceAtCritical, dots),
    observed: chance.observed(tested.first),
    needed: criticalNumber === null ? null : chance.needed(criticalNumber),
    neededBelow: criticalNumber === null ? null : chance.neededBelow(judgments - criticalNumber),
    axis: chance.axis(products[0]),
  };
}

function rowsOf(result: PairResult, { preference }: ReportWords): Row[] {
  const { rows, values } = preference;
  const { products, counts, ofAll, people, judgments, alpha, noPreference, power, chanceAtCritical } = result;
  const votes = (count: number, interval: Interval) =>
    values.votes(count, answers, people > 0 ? boundsOf(interval) : null);
  const answers = counts.first + counts.second + counts.none;
  const leftOut = noPreference === "split" ? counts.none % 2 : 0;
  const list: Row[] = [
    { id: "first", label: rows.preferred(products[0]), ...votes(counts.first, ofAll.first) },
    { id: "second", label: rows.preferred(products[1]), ...votes(counts.second, ofAll.second) },
    {
      id: "none",
      label: rows.none,
      ...(noPreference === "not-offered" ? values.notOffered : votes(counts.none, ofAll.none)),
    },
    { id: "tested", label: rows.tested, ...values.tested(judgments, noPreference, leftOut) },
    {
      id: "firstShare",
      label: rows.share(products[0]),
      ...values.share(result.firstShare.estimate, boundsOf(result.firstShare)),
    },
    {
      id: "secondShare",
      label: rows.share(products[1]),
      ...values.share(result.secondShare.estimate, boundsOf(result.secondShare)),
    },
    { id: "expected", label: rows.expected, ...values.expected(result.expectedByGuessing) },
  ];
  if (!result.byPerson) list.push({ id: "needed", label: rows.needed, ...values.needed(result.criticalNumber, alpha) });
  if (chanceAtCritical !== null) {
    list.push({ id: "chanceAtCritical", label: rows.chanceAtCritical, ...values.chance(chanceAtCritical) });
  }
  const exact = result.byPerson ? rows.pByPerson : rows.pValue;
  list.push({ id: "pValue", label: exact, ...values.p(result.pValue, alpha) });
  if (result.pValueAdjusted !== null) {
    list.push({ id: "shared", label: rows.shared, ...values.p(result.pValueAdjusted, alpha) });
  }
  if (result.dPrime) list.push({ id: "dPrime", label: rows.dPrime, ...values.distance(result.dPrime) });
  if (power) list.push({ id: "power", label: rows.power(power.share, power.people), ...values.power(power.power) });
  return list;
}
