import { useState } from "preact/hooks";
import type { ClaimVersion } from "../log/claim.ts";
import { focusSoon } from "../ui/focus.ts";
import { organizer } from "../words/en/organizer.ts";
import { claimWords as words } from "../words/en/organizer-claims.ts";
import { useLead } from "./app-context.ts";
import { resultsIn } from "./claim-results.ts";
import { fetchClaims, fetchStudies, useClaims, usePolling, useStudies } from "./facts.ts";
import { TextField } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { claimAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";
import { holdsAll } from "./study-find.ts";
import { beginClaim } from "./use-claim.ts";

const everyMs = 15_000;

type Listed = { id: string; version: ClaimVersion };

/** All claims of this kitchen, latest change first, with how many of their results are in. */
export function Claims() {
  const lead = useLead();
  const claims = useClaims(lead.store);
  const studies = useStudies(lead.store);
  const doing = useDoing();
  const fetching = usePolling(
    lead,
    async () => {
      await fetchClaims(lead);
      await fetchStudies(lead);
    },
    everyMs,
    [lead.who.token],
  );
  const known = listed(claims ?? []);
  const nothing = claims !== undefined && known.length === 0;
  const revealed = new Set((studies ?? []).filter(({ state }) => state.reveal).map(({ id }) => id));
  return (
    <Page heading={nothing ? words.emptyHeading : words.heading} windowTitle={words.heading} wide={known.length > 0}>
      {fetching.thrown === null ? null : <p class="note">{words.offline}</p>}
      {claims === undefined ? <p class="fine">{organizer.loading}</p> : null}
      {nothing ? <p class="lead-in">{words.empty}</p> : null}
      {claims === undefined ? null : (
        <p class="after-row">
          <button type="button" class="next" onClick={() => doing.run(() => beginClaim(lead))}>
            {words.begin}
          </button>
          <span class="fine">{words.beginHint}</span>
        </p>
      )}
      <ProblemNote thrown={doing.thrown} />
      {known.length > 0 ? <List known={known} isRevealed={(study) => revealed.has(study)} /> : null}
    </Page>
  );
}

function listed(claims: NonNullable<ReturnType<typeof useClaims>>): Listed[] {
  return claims
    .flatMap(({ id, state }) => (state.current ? [{ id, version: state.current }] : []))
    .sort((a, b) => (a.version.at < b.version.at ? 1 : a.version.at > b.version.at ? -1 : a.id < b.id ? -1 : 1));
}

type ListProps = { known: readonly Listed[]; isRevealed: (study: string) => boolean };

function List({ known, isRevealed }: ListProps) {
  const [sought, setSought] = useState("");
  const shown = known.filter(({ version: { claim } }) =>
    holdsAll(sought, [claim.title, claim.words, ...claim.explanations.map(({ name }) => name)]),
  );
  return (
    <>
      {known.length > 1 ? (
        <search aria-label={words.find.label} class="find">
          <TextField id="find-claims" label={words.find.words} value={sought} onInput={setSought} />
          <p class="fine shown" role="status">
            {shown.length === 0 ? words.find.none : words.find.shown(shown.length, known.length)}
          </p>
          {shown.length === known.length ? null : (
            <button
              type="button"
              class="quiet"
              onClick={() => {
                setSought("");
                focusSoon("find-claims");
              }}
            >
              {words.find.clear}
            </button>
          )}
        </search>
      ) : null}
      {shown.length > 0 ? <Table shown={shown} isRevealed={isRevealed} /> : null}
    </>
  );
}

function Table({ shown, isRevealed }: { shown: readonly Listed[]; isRevealed: ListProps["isRevealed"] }) {
  const { columns } = words;
  return (
    <table class="studies">
      <thead>
        <tr>
          <th scope="col">{columns.title}</th>
          <th scope="col">{columns.state}</th>
          <th scope="col">{columns.last}</th>
        </tr>
      </thead>
      <tbody>
        {shown.map(({ id, version: { claim, at } }) => {
          const { known, all } = resultsIn(claim, isRevealed);
          return (
            <tr key={id}>
              <th scope="row">
                <a href={claimAddress(id)}>{claim.title.trim() || words.untitled}</a>
                <p class="fine">{claim.invented ? words.invented : claim.words}</p>
              </th>
              <td>{words.state(known, all)}</td>
              <td class="when">
                <span class="narrow-only">{columns.last} </span>
                {organizer.dayAndTime(at)}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
