import { useState } from "preact/hooks";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { computeBeside } from "./computing.ts";
import type { Opened } from "./opened-study.ts";
import { studyText } from "./study-text.ts";
import type { CheckedPoint } from "./verify.ts";

type Props = { study: Opened; app: string; now: () => string };
type Outcome = { points: CheckedPoint[] } | { why: string };

/** Computes the result anew from the study file in memory and says what was checked. */
export function Verify({ study, app, now }: Props) {
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const words = reader.verify;

  async function check(): Promise<void> {
    try {
      const text = studyText(study, app, now());
      const path = reader.exports.study;
      setOutcome({ points: await computeBeside({ job: "verify", text, shown: study.result, path }) });
    } catch (thrown) {
      setOutcome({ why: sentenceOf(thrown) });
    }
  }

  return (
    <div class="part">
      <button type="button" onClick={() => void check()}>
        {outcome ? words.again : words.start}
      </button>
      <div role="status" class="checked">
        {outcome && "why" in outcome && (
          <p>
            <strong>{words.bad}</strong> {outcome.why}
          </p>
        )}
        {outcome && "points" in outcome && (
          <>
            <p>
              <strong>{outcome.points.every(({ good }) => good) ? words.good : words.bad}</strong>
            </p>
            <ul class="sentences">
              {outcome.points.map((point) => (
                <li key={point.what}>{words.points[point.what](point.good, point.count)}</li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  );
}
