import { analyse } from "../analysis/analyse.ts";
import { readStudyFile, recordOfFile } from "../archive/study-file.ts";
import { canonicalText } from "../model/canonical.ts";
import type { Result } from "../model/result.ts";

/** One thing that was checked, and how it came out. `count`: events read, left out, not following, or missing. */
export type CheckedPoint = {
  what: "read" | "left-out" | "links" | "missing" | "commitment" | "result";
  good: boolean;
  count: number;
};

/**
 * Checks a result against the file of its study, from the text on: each device's chain of hashes, that nothing lacks
 * which close and reveal knew of, the commitment to the key, and the whole computation.
 *
 * Takes    text: of the study file; shown: the result to check
 * Returns  one point for each check, all of them, good or not
 * Throws   Problem "file/…" when the text is no study file with an opened key, and what `analyse` throws
 */
export function checkResult(text: string, shown: Result, path: string): CheckedPoint[] {
  const file = readStudyFile(text, path);
  const { record, held, brokenLinks, missing } = recordOfFile(file, path);
  const anew = analyse(record, shown.app);
  const points: CheckedPoint[] = [
    { what: "read", good: true, count: file.events.length },
    { what: "links", good: brokenLinks === 0, count: brokenLinks },
    { what: "missing", good: missing === 0, count: missing },
    { what: "commitment", good: record.keyMatches, count: 0 },
    { what: "result", good: canonicalText(anew) === canonicalText(shown), count: 0 },
  ];
  if (held > 0) points.splice(1, 0, { what: "left-out", good: false, count: held });
  return points;
}
