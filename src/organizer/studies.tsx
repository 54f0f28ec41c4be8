import { useState } from "preact/hooks";
import { organizer } from "../words/en/organizer.ts";
import { studiesWords as words } from "../words/en/organizer-studies.ts";
import { useLead } from "./app-context.ts";
import { beginStudy, copyStudy } from "./begin-study.ts";
import { DemoOffer } from "./demo-offer.tsx";
import { fetchKitchen, fetchStudies, usePolling, useStudies } from "./facts.ts";
import { FindStudies } from "./find-studies.tsx";
import { Page } from "./page.tsx";
import { PlanFromFile } from "./plan-from-file.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import { found, type Known, knownStudies, type Sought } from "./study-find.ts";
import { StudyTable } from "./study-table.tsx";

const everyMs = 15_000;

/** All studies this kitchen has, latest change first, and the ways to begin one: anew, or with the plan of another. */
export function Studies() {
  const lead = useLead();
  const studies = useStudies(lead.store);
  const doing = useDoing();
  const fetching = usePolling(
    lead,
    async () => {
      await fetchKitchen(lead);
      await fetchStudies(lead);
    },
    everyMs,
    [lead.who.token],
  );
  const known = knownStudies(studies ?? []);
  const nothing = studies !== undefined && known.length === 0;
  return (
    <Page heading={nothing ? words.emptyHeading : words.heading} windowTitle={words.heading} wide={known.length > 0}>
      {fetching.thrown === null ? null : <p class="note">{words.offline}</p>}
      {studies === undefined ? <p class="fine">{organizer.loading}</p> : null}
      {nothing ? <p class="lead-in">{words.empty}</p> : null}
      {studies === undefined ? null : (
        <>
          <p class="after-row">
            <button type="button" class="next" onClick={() => doing.run(() => beginStudy(lead))}>
              {words.begin}
            </button>
            <span class="fine">{words.beginHint}</span>
          </p>
          <PlanFromFile />
        </>
      )}
      <ProblemNote thrown={doing.thrown} />
      {nothing ? <DemoOffer /> : null}
      {known.length > 0 ? (
        <StudyList known={known} onCopy={({ id, plan }) => doing.run(() => copyStudy(lead, id, plan))} />
      ) : null}
    </Page>
  );
}

/** The list, and the way to find something in it once there is more than one. */
function StudyList({ known, onCopy }: { known: Known[]; onCopy: (study: Known) => void }) {
  const [sought, setSought] = useState<Sought>({ words: "", stage: null });
  const shown = found(known, sought);
  return (
    <>
      {known.length > 1 ? (
        <FindStudies known={known} shown={shown.length} sought={sought} onSought={setSought} />
      ) : null}
      {shown.length > 0 ? <StudyTable studies={shown} onCopy={onCopy} /> : null}
    </>
  );
}
