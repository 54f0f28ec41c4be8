import { useState } from "preact/hooks";
import { emptyPlan } from "../design/readiness.ts";
import type { StudyState } from "../log/fold.ts";
import { newId } from "../model/id.ts";
import type { Plan } from "../model/plan.ts";
import { organizer } from "../words/en/organizer.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { progressOf } from "./day.ts";
import { fetchStudies, usePolling, useStudies } from "./facts.ts";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { studyAddress } from "./route.ts";
import { lastAt, planOf, stageOf } from "./study-stage.ts";

const everyMs = 15_000;
const words = organizer.studies;

/** All studies this kitchen has, newest change first, and the way to begin one. */
export function Studies() {
  const lead = useLead();
  const studies = useStudies(lead.store);
  const fetching = usePolling(lead, () => fetchStudies(lead), everyMs, [lead.who.token]);
  const [thrown, setThrown] = useState<unknown>(null);

  async function begin(): Promise<void> {
    const id = newId();
    try {
      await appendEvent(lead, {
        stream: { kind: "study", id },
        kind: "draft-saved",
        body: { base: null, plan: emptyPlan() },
      });
      window.location.hash = studyAddress(id);
    } catch (failure) {
      setThrown(failure);
    }
  }

  const known = newestFirst(studies ?? []);
  const nothing = studies !== undefined && known.length === 0;
  return (
    <Page
      heading={nothing ? words.emptyHeading : words.heading}
      windowTitle={words.heading}
      margin={fetching.thrown === null ? null : <p>{words.offline}</p>}
    >
      {studies === undefined ? <p class="fine">{organizer.loading}</p> : null}
      {nothing ? <p class="lead-in">{words.empty}</p> : null}
      {known.length > 0 ? <StudyTable known={known} /> : null}
      <ProblemNote thrown={thrown} />
      {studies === undefined ? null : (
        <p class="after">
          <button type="button" class="next" onClick={() => void begin()}>
            {words.begin}
          </button>
        </p>
      )}
    </Page>
  );
}

type Known = { id: string; state: StudyState; plan: Plan; last: string | null };

/** Studies that have a plan, by their last change. */
function newestFirst(studies: readonly Pick<Known, "id" | "state">[]): Known[] {
  return studies
    .flatMap(({ id, state }) => {
      const plan = planOf(state);
      return plan ? [{ id, state, plan, last: lastAt(state) }] : [];
    })
    .sort((a, b) => ((a.last ?? "") < (b.last ?? "") ? 1 : -1));
}

function StudyTable({ known }: { known: Known[] }) {
  return (
    <table class="studies">
      <thead>
        <tr>
          <th scope="col">{words.title}</th>
          <th scope="col">{words.state}</th>
          <th scope="col" class="number">
            {words.last}
          </th>
        </tr>
      </thead>
      <tbody>
        {known.map(({ id, state, plan, last }) => (
          <tr key={id}>
            <th scope="row">
              <a href={studyAddress(id)}>{plan.title.trim() || organizer.untitled}</a>
            </th>
            <td>{stageText(state)}</td>
            <td class="number">{last ? organizer.dayAndTime(last) : ""}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Where a study stands, in words. */
function stageText(state: StudyState): string {
  const { stages } = organizer.studies;
  const stage = stageOf(state);
  if (stage !== "collecting") return stages[stage];
  const { answered, planned } = progressOf(state);
  return stages.collecting(answered, planned);
}
