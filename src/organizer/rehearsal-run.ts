import { describe } from "../analysis/describe.ts";
import { rehearse } from "../design/rehearsal.ts";
import type { RehearsalAsked } from "../model/rehearsal.ts";
import { report } from "../words/en/report.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import type { RehearsalNews } from "./rehearsal-news.ts";

/** Progress is told this often. */
const tellEveryMs = 100;

/** Plays a rehearsal to its end and tells of it. For a worker: it does not pause. Never throws. */
export function runRehearsal(
  asked: RehearsalAsked,
  app: string,
  now: () => number,
  tell: (news: RehearsalNews) => void,
): void {
  try {
    const going = rehearse(asked, app);
    let told = now();
    for (let step = going.next(); ; step = going.next()) {
      if (step.done) {
        const texts = step.value.examples.map((result) => {
          const { verdict, size, meaning } = describe(result, report);
          return { verdict, size, meaning };
        });
        tell({ kind: "done", rehearsal: step.value, texts });
        return;
      }
      if (now() - told < tellEveryMs) continue;
      told = now();
      tell({ kind: "progress", done: step.value });
    }
  } catch (thrown) {
    tell({ kind: "failed", sentence: sentenceOf(thrown) });
  }
}
