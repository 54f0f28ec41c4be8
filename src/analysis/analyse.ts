import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import { analyseChoice } from "./analyse-choice.ts";
import { analyseKinds } from "./analyse-kinds.ts";
import { analysePair } from "./analyse-pair.ts";
import { analysePortions } from "./analyse-portions.ts";
import { analyseRank } from "./analyse-rank.ts";
import { analyseScale } from "./analyse-scale.ts";
import { choiceStatistics, type OfCounts } from "./choice.ts";
import { familyOf } from "./method.ts";

export { analyseChoice, resultOfCounts, resultOfRows } from "./analyse-choice.ts";

const analyses = {
  choice: analyseChoice,
  pair: analysePair,
  kinds: analyseKinds,
  scale: analyseScale,
  rank: analyseRank,
  portions: analysePortions,
} satisfies Record<Result["family"], (record: StudyRecord, app: string, ofCounts: OfCounts) => Result>;

/**
 * The result of a closed and revealed study: the one function behind report, terminal and archive check.
 *
 * Takes    record: a `StudyRecord` (its answers are marked by the opened key here); app: version that computes; ofCounts:
 *          what gives the statistics of a choice test, for who has them at hand already (see `rehearse`)
 * Returns  the whole `Result`; departures are the record's own, none is added or dropped. A key that does not match its
 *          seal gives numbers and no verdict: nobody can say which answers were right
 * Throws   Problems of the area "analysis" when the record contradicts itself: see `markedChoices`, `markedPairs`,
 *          `markedKinds`, `markedLines`, `servedPortions`
 */
export function analyse(record: StudyRecord, app: string, ofCounts: OfCounts = choiceStatistics): Result {
  const { method, sides } = record.plan;
  return analyses[familyOf(method, sides)](record, app, ofCounts);
}
