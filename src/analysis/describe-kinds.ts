import type { Interval } from "../model/interval.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { KindsResult } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { KindsFacts } from "../words/en/report-kinds.ts";
import { type ChanceText, type FamilyText, type Part, type Row, rangeOf } from "./describe.ts";
import { kindsPeople } from "./describe-parts.ts";

/** What is said of same-different and A-not-A. */
export function kindsWords(result: KindsResult, words: ReportWords): FamilyText {
  const { judgments, pValue, alpha, outcome } = result;
  const facts = factsOf(result);
  const silent = judgments === 0 || outcome === "withheld";
  return {
    verdict: verdictOf(result, facts, words),
    size: sizeOf(result, words),
    agreed: agreedOf(result, words),
    meaning: silent ? "" : words.kinds.meaning(pValue, alpha, facts),
    chance: chanceOf(result, facts, words),
    rows: rowsOf(result, words),
    attributes: [],
    parts: outcome === "withheld" ? [] : [twoByTwo(result, words), ...kindsPeople(result, words)],
  };
}

function factsOf(result: KindsResult): KindsFacts {
  const { method, unlike, like, judgments, people, criticalNumber, alpha, withinPeople, pValue, study } = result;
  const [first, second] = study?.products ?? [];
  return {
    ...{ method, unlike, like, judgments, people, alpha, needed: criticalNumber, leastForVerdict },
    within: withinPeople ? pValue : null,
    products: first && second ? [first.name, second.name] : null,
    planned: study !== null,
  };
}

function verdictOf({ outcome }: KindsResult, facts: KindsFacts, { kinds }: ReportWords): string {
  return outcome === "within-limit" || outcome === "not-within-limit"
    ? kinds.verdict["too-few"](facts)
    : kinds.verdict[outcome](facts);
}

function sizeOf(result: KindsResult, { kinds }: ReportWords): string {
  const { outcome, method, unlike, like } = result;
  if (outcome === "withheld") return kinds.size.withheld;
  if (unlike.of === 0 || like.of === 0) return kinds.size.none;
  const shares = kinds.size.shares(method, unlike.told / unlike.of, like.told / like.of);
  return [shares, distanceOf(result, kinds)].filter((text) => text !== "").join(" ");
}

function distanceOf({ dPrime, dPrimeProfile, outcome }: KindsResult, { size }: ReportWords["kinds"]): string {
  if (outcome === "far-below-chance") return "";
  if (outcome === "reached" && dPrime.estimate === null)
    return dPrime.low === null ? "" : size.unbounded(dPrime.low, dPrime.confidence);
  if (dPrime.estimate === null) return "";
  if (dPrime.kind === "none") return `${size.distance(dPrime.estimate, null, dPrime.confidence)} ${size.people}`;
  if (outcome === "reached") return size.distance(dPrime.estimate, dPrime.low, dPrime.confidence);
  const { low, high, confidence } = dPrimeProfile;
  if (low === null) return size.distance(dPrime.estimate, null, dPrime.confidence);
  return high === null
    ? size.openUp(dPrime.estimate, low, confidence)
    : size.open(dPrime.estimate, { low, high, confidence });
}

function agreedOf({ study, outcome }: KindsResult, { agreed, kinds }: ReportWords): string {
  if (!study) return agreed.noStudy;
  if (outcome === "reached") return kinds.agreed.reached(study.ifYes);
  if (outcome === "not-reached") return kinds.agreed["not-reached"](study.ifNo);
  return agreed[outcome](study.ifYes, study.ifNo);
}

function chanceOf(result: KindsResult, facts: KindsFacts, { kinds }: ReportWords): ChanceText {
  const { criticalNumber, chanceAtCritical, guessingPanels, unlike, method } = result;
  const least = criticalNumber ?? unlike.of + 1;
  const dots = guessingPanels.slice(least).reduce((sum, panels) => sum + panels, 0);
  return {
    caption: kinds.chance.caption(facts, chanceAtCritical, dots),
    observed: kinds.chance.observed(unlike.told),
    needed: criticalNumber === null ? null : kinds.chance.needed(criticalNumber),
    neededBelow: null,
    axis: kinds.chance.axis(method),
  };
}

const boundsOf = (share: Interval) => (share.kind === "two-sided" ? rangeOf(share) : null);

function rowsOf(result: KindsResult, { kinds }: ReportWords): Row[] {
  const { rows, values } = kinds;
  const { method, unlike, like, withinPeople, alpha, oddsRatio, dPrime, criterion, power, chanceAtCritical } = result;
  const list: Row[] = [
    { id: "unlike", label: rows.told(method, "unlike"), ...values.told(unlike, boundsOf(unlike.share)) },
    { id: "like", label: rows.told(method, "like"), ...values.told(like, boundsOf(like.share)) },
  ];
  // without an answer there is no test, and nothing that it could have found
  if (result.judgments === 0) return list;
  if (!withinPeople) {
    list.push({ id: "needed", label: rows.needed, ...values.needed(result.criticalNumber, alpha) });
    if (chanceAtCritical !== null) {
      list.push({ id: "chanceAtCritical", label: rows.chanceAtCritical, ...values.chance(chanceAtCritical) });
    }
  }
  list.push(
    { id: "pValue", label: withinPeople ? rows.pWithin : rows.pValue, ...values.p(result.pValue, alpha) },
    {
      id: "oddsRatio",
      label: rows.oddsRatio,
      ...values.odds(oddsRatio.estimate, oddsRatio.low, oddsRatio.confidence),
    },
    { id: "dPrime", label: rows.dPrime, ...values.distance(dPrime.estimate, dPrime.low, dPrime.confidence) },
  );
  if (criterion !== null) list.push({ id: "criterion", label: rows.criterion, ...values.criterion(criterion) });
  if (power) list.push({ id: "power", label: rows.power(power.dPrime, power.people), ...values.power(power.power) });
  return list;
}

function twoByTwo({ method, unlike, like }: KindsResult, { kinds }: ReportWords): Part {
  const { table } = kinds;
  const row = (label: string, { told, of }: { told: number; of: number }): string[] => [
    label,
    ...[told, of - told, of].map(String),
  ];
  return {
    id: "two-by-two",
    heading: table.heading,
    sentences: [],
    table: {
      caption: table.caption,
      columns: table.columns(method),
      rows: [row(kinds.kinds[method].unlike, unlike), row(kinds.kinds[method].like, like)],
      note: table.note(method),
    },
  };
}
