import { useRef } from "preact/hooks";
import type { ClaimState } from "../log/claim.ts";
import { type Claim, emptyClaim } from "../model/claim.ts";
import { newId } from "../model/id.ts";
import { appendEvent, type Lead, useLead } from "./app-context.ts";
import { attachedStudies } from "./claim-edit.ts";
import { claimDifferences } from "./differences.ts";
import { readStudy } from "./facts.ts";
import { claimAddress } from "./route.ts";
import { type Kept, useKept } from "./use-kept.ts";

/** As many studies as one event may name. */
const mostKnown = 500;

export type ClaimDraft = Omit<Kept<Claim>, "value"> & { claim: Claim };

/** A claim at hand, kept as events while it is typed. */
export function useClaimDraft(id: string, { current, others, versions }: ClaimState): ClaimDraft {
  const lead = useLead();
  /** What this page wrote last: the state may not have been read again yet. */
  const written = useRef<{ event: string; claim: Claim } | null>(null);
  const { value, ...kept } = useKept<Claim>({
    stored: {
      ...{ event: current?.event ?? null, value: current?.claim ?? emptyClaim(newId) },
      others: others.map(({ event }) => event),
    },
    save: async (base, merged, claim) => {
      const before = base === written.current?.event ? written.current?.claim : versions.get(base ?? "")?.claim;
      const event = await saveClaim(lead, id, { base, merged, claim, before: before ?? null });
      written.current = { event, claim };
      return event;
    },
    differ: claimDifferences,
  });
  return { claim: value, ...kept };
}

type Saving = { base: string | null; merged: string[]; claim: Claim; before: Claim | null };

/** Writes a version of a claim, with the attached studies whose keys this device knows to be open. Returns its event. */
export async function saveClaim(lead: Lead, id: string, { base, merged, claim, before }: Saving): Promise<string> {
  const attached = new Set([...attachedStudies(claim), ...(before ? attachedStudies(before) : [])]);
  const known: string[] = [];
  // only these: a device may hold many studies, and whoever weighs waits for each of them
  for (const study of attached) {
    if ((await readStudy(lead.store, study)).reveal) known.push(study);
  }
  const body = { base, merged, claim, known: known.sort().slice(0, mostKnown) };
  return (await appendEvent(lead, { stream: { kind: "claim", id }, kind: "claim-saved", body })).id;
}

/** Begins a claim and goes there. */
export async function beginClaim(lead: Lead): Promise<void> {
  const id = newId();
  await saveClaim(lead, id, { base: null, merged: [], claim: emptyClaim(newId), before: null });
  window.location.hash = claimAddress(id);
}
