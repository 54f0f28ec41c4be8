import type { Interval } from "../model/interval.ts";
import type { ChoiceResult, KindsResult, PairResult } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { dPrimeText, percent } from "../words/number.ts";

const words = reader.details.formulaText;

/** The formulas of same-different and A-not-A. */
export function kindsLines(result: KindsResult): string[] {
  const { unlike, like, withinPeople, method } = result;
  const counts = { unlike: unlike.of, like: like.of, told: unlike.told, all: unlike.told + like.told };
  return [...words.kinds({ ...counts, within: withinPeople, method }), ...distanceLines(result)];
}

/** What stands behind the formulas of a choice or a pair: other intervals, repeats, looks, several questions. */
export function furtherLines(result: ChoiceResult | PairResult): string[] {
  const { more, psychometric } = words;
  const score = result.family === "choice" ? result.correctShareScore : result.firstShareScore;
  return [
    ...(result.dPrime ? [psychometric[result.method] ?? ""] : []),
    ...(score.low === null || score.high === null || score.estimate === null
      ? []
      : [more.score(percent(score.low), percent(score.high), score.confidence)]),
    ...(result.dPrime ? distanceLines(result) : []),
    ...(result.betaBinomial || result.chanceCorrected ? [more.spread] : []),
    ...(result.pValueAdjusted === null ? [] : [more.holm]),
  ].filter((line) => line !== "");
}

type Distances = { judgments: number; dPrimeProfile: Interval | null; dPrimeStandardError: number | null };

function distanceLines({ judgments, dPrimeProfile, dPrimeStandardError }: Distances): string[] {
  const { more } = words;
  if (judgments === 0 || !dPrimeProfile || dPrimeProfile.kind === "none") return [];
  const end = (value: number | null): string =>
    value === null ? more.noEnd : dPrimeText(value).replace("-", "\u2212");
  return [
    more.profile(end(dPrimeProfile.low), end(dPrimeProfile.high), dPrimeProfile.confidence),
    dPrimeStandardError === null ? more.noError : more.error(dPrimeText(dPrimeStandardError)),
  ];
}
