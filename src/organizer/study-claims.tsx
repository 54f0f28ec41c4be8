import { useState } from "preact/hooks";
import type { ClaimState } from "../log/claim.ts";
import { newId } from "../model/id.ts";
import type { Plan } from "../model/plan.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { useLead } from "./app-context.ts";
import { attachedStudies, attachmentFor, fits, withAttached } from "./claim-edit.ts";
import { fetchClaims, useClaims, usePolling } from "./facts.ts";
import { Select } from "./fields.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { claimAddress, claimsAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";
import { saveClaim } from "./use-claim.ts";

const words = claimWords.ofStudy;
const everyMs = 15_000;

type Known = { id: string; state: ClaimState };

/** The claims that a study is attached to, and the way to attach it to one. */
export function StudyClaims({ study, plan }: { study: string; plan: Plan }) {
  const lead = useLead();
  const claims = useClaims(lead.store);
  usePolling(lead, () => fetchClaims(lead), everyMs, [lead.who.token]);
  if (claims === undefined) return null;
  const of = claims.filter(({ state }) => state.current && attachedStudies(state.current.claim).includes(study));
  return (
    <>
      {of.map(({ id, state }) => (
        <p key={id} class="fine under no-print">
          {words.attached} <a href={claimAddress(id)}>{state.current?.claim.title.trim() || claimWords.untitled}</a>
        </p>
      ))}
      <Attach study={study} plan={plan} claims={claims} />
    </>
  );
}

/** Every place that a study of this plan could take, by claim and thing. */
function placesFor(study: string, plan: Plan, claims: readonly Known[]) {
  return claims.flatMap(({ id, state: { current } }) =>
    (current?.claim.measures ?? []).flatMap((measure) =>
      current && fits(plan, measure) && !measure.attached.some((each) => each.study === study)
        ? [{ id, current, measure }]
        : [],
    ),
  );
}

function Attach({ study, plan, claims }: { study: string; plan: Plan; claims: readonly Known[] }) {
  const lead = useLead();
  const doing = useDoing();
  const [chosen, setChosen] = useState("");
  const places = placesFor(study, plan, claims);
  const keyOf = ({ id, measure }: (typeof places)[number]): string => `${id} ${measure.id}`;
  const place = places.find((each) => keyOf(each) === chosen);
  const attach = (): void => {
    if (!place) return;
    const { id, current, measure } = place;
    doing.run(async () => {
      const claim = withAttached(current.claim, measure.id, attachmentFor(newId(), study, plan, measure));
      await saveClaim(lead, id, { base: current.event, merged: [], claim, before: current.claim });
      setChosen("");
    });
  };
  return (
    <details class="no-print to-claim">
      <summary>{words.summary}</summary>
      {places.length === 0 ? (
        <p>
          {words.none} <a href={claimsAddress}>{words.toClaims}</a>
        </p>
      ) : (
        <div class="gate">
          <Select
            id="claim-place"
            label={words.place}
            value={place ? chosen : ""}
            options={[
              { value: "", label: words.notChosen },
              ...places.map((each) => ({
                value: keyOf(each),
                label: words.option(
                  each.current.claim.title.trim() || claimWords.untitled,
                  each.measure.name.trim() || claimWords.measure.unnamed,
                ),
              })),
            ]}
            onChange={setChosen}
          />
          <button type="button" aria-disabled={place && !doing.busy ? undefined : "true"} onClick={attach}>
            {words.submit}
          </button>
        </div>
      )}
      <ProblemNote thrown={doing.thrown} />
    </details>
  );
}
