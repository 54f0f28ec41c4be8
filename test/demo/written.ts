import type { By } from "../../src/demo/acts.ts";
import { type WrittenStudy, writeDemo } from "../../src/demo/studies.ts";
import { readEvent } from "../../src/log/facts.ts";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import type { Fact } from "../../src/model/event.ts";
import { newEventId, newId } from "../../src/model/id.ts";

export const device: Record<By, string> = { lead: newId(), 0: newId(), 1: newId(), 2: newId() };

/** The id of the demo's claim. */
export const claim = newId();

/** Two hours ahead of UTC, as a kitchen in central Europe in May. */
const offsetMinutes = -120;

export type Told = WrittenStudy & { facts: Fact[]; state: StudyState };

/** The demo as its devices would hold it, read and folded. */
export async function told(): Promise<Told[]> {
  const by = (who: By) => device[who];
  const studies = await writeDemo({ device: by, offsetMinutes, newStudyId: newId, newEventId, claim, app: "test" });
  return studies.map((study) => {
    const facts = study.acts.map(({ text }) => {
      const read = readEvent(text);
      if (!read.ok || !read.fact) throw new Error(`not a fact: ${text.slice(0, 200)}`);
      return read.fact;
    });
    return { ...study, facts, state: foldStudy(facts) };
  });
}
