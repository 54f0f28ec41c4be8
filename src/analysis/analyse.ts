import { problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import { analyseChoice } from "./analyse-choice.ts";
import { analyseKinds } from "./analyse-kinds.ts";
import { analysePair } from "./analyse-pair.ts";
import { analyseRank } from "./analyse-rank.ts";
import { analyseScale } from "./analyse-scale.ts";
import { familyOf } from "./method.ts";

export { analyseChoice, resultOfCounts, resultOfRows } from "./analyse-choice.ts";

const analyses = {
  choice: analyseChoice,
  pair: analysePair,
  kinds: analyseKinds,
  scale: analyseScale,
  rank: analyseRank,
} satisfies Record<Result["family"], (record: StudyRecord, app: string) => Result>;

/**
 * The result of a closed and revealed study: the one function behind report, terminal and archive check.
 *
 * Takes    record: a `StudyRecord` (its answers are marked by the opened key here); app: version that computes
 * Returns  the whole `Result`; departures are the record's own, none is added or dropped. A key that does not match its
 *          seal gives numbers and no verdict: nobody can say which answers were right
 * Throws   Problems of the area "analysis" when the record contradicts itself: see `markedChoices`, `markedPairs`,
 *          `markedKinds`, `markedLines`; "analysis/method-not-yet" for chewed portions: no answer says what they weigh
 */
export function analyse(record: StudyRecord, app: string): Result {
  const { method, sides } = record.plan;
  const family = familyOf(method, sides);
  if (family === "portions") throw problem("analysis/method-not-yet", { method });
  return analyses[family](record, app);
}
