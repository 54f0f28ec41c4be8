import type { ClaimState } from "../log/claim.ts";
import { focusSoon } from "../ui/focus.ts";
import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { claimWords as words } from "../words/en/organizer-claims.ts";
import { useLead } from "./app-context.ts";
import { attachedStudies, differences } from "./claim-edit.ts";
import { ClaimFields, Explanations } from "./claim-fields.tsx";
import { ClaimFindings } from "./claim-findings.tsx";
import { Measures } from "./claim-measures.tsx";
import { type ClaimStudy, studiesWithResults } from "./claim-results.ts";
import { fetchClaims, fetchStudies, useClaim, usePolling, watchOf } from "./facts.ts";
import { OtherVersions } from "./other-versions.tsx";
import { headingId, Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { claimsAddress } from "./route.ts";
import { UndoBar } from "./undo-bar.tsx";
import { useClaimDraft } from "./use-claim.ts";
import { useDevices } from "./use-devices.ts";

const everyMs = 8_000;

/** One claim: what the data leave of it, and under that everything it says, kept while it is typed. */
export function ClaimPage({ id }: { id: string }) {
  const lead = useLead();
  const state = useClaim(lead.store, id);
  const fetching = usePolling(
    lead,
    async () => {
      await fetchClaims(lead);
      await fetchStudies(lead);
    },
    everyMs,
    [lead.who.token],
  );
  if (state === undefined) return <p class="fine">{organizer.loading}</p>;
  if (!state.current) return <Unknown />;
  return <Known id={id} state={state} offline={fetching.thrown !== null} />;
}

function Unknown() {
  return (
    <Page heading={words.unknown} windowTitle={words.unknown}>
      <p class="lead-in">{words.unknownText}</p>
      <p>
        <a href={claimsAddress}>{words.allClaims}</a>
      </p>
    </Page>
  );
}

function Known({ id, state, offline }: { id: string; state: ClaimState; offline: boolean }) {
  const lead = useLead();
  const draft = useClaimDraft(id, state);
  const { nameOf } = useDevices();
  const { claim } = draft;
  const attached = attachedStudies(claim);
  const studies = useReading(() => studiesWithResults(lead.store, attached), watchOf(lead.store), [attached.join()]);
  const title = claim.title.trim() || words.untitled;
  return (
    <Page heading={title} windowTitle={title} margin={<Notes />}>
      {state.current ? <p class="fine under">{words.last(nameOf(state.current.device), state.current.at)}</p> : null}
      {claim.invented ? <p class="note">{words.inventedNote}</p> : null}
      {offline ? <p class="note no-print">{words.offlinePage}</p> : null}
      {lead.keep?.at === "failed" ? <ProblemNote thrown={lead.keep.thrown} /> : null}
      <ClaimFindings claim={claim} state={state} studies={studies} />
      <div class="kitchen no-print" onFocusOut={() => void draft.flush()}>
        <ClaimFields draft={draft} />
        <Explanations draft={draft} />
        <Measures draft={draft} studies={studies ?? noStudies} />
      </div>
      <div class="foot no-print">
        <OtherVersions
          current={state.current?.claim}
          others={state.others.map((other) => ({ ...other, document: other.claim }))}
          differences={differences}
          words={words.versions}
          settle={draft.settle}
          nameOf={nameOf}
        />
        <UndoBar {...draft} then={() => focusSoon(headingId)} />
      </div>
    </Page>
  );
}

const noStudies: readonly ClaimStudy[] = [];

function Notes() {
  return (
    <>
      <p>{words.noteBefore}</p>
      <p>{words.note}</p>
      <p>{words.noteBlind}</p>
    </>
  );
}
