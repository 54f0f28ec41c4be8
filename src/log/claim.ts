import type { Claim, Measure, Prediction } from "../model/claim.ts";
import type { Fact } from "../model/event.ts";
import { holdsLosses } from "../model/ledger.ts";
import { type FactOf, onceEach } from "./fact.ts";
import { leavesOf } from "./leaves.ts";

/** One version of a claim, and who wrote it when (a clock: shown, never compared). */
export type ClaimVersion = {
  event: string;
  device: string;
  at: string;
  /** The versions that it was written over. */
  over: string[];
  claim: Claim;
  /** Attached studies whose results the writer could know. */
  known: string[];
};

/** The version that counts; others that were written without knowing of it; and every one there is, by its event. */
export type ClaimState = {
  current: ClaimVersion | null;
  others: ClaimVersion[];
  versions: ReadonlyMap<string, ClaimVersion>;
};

/**
 * A claim from its facts, by the rule of drafts: of versions that nobody wrote over, the one with the highest id counts,
 * everywhere; the others are given beside it, so that nothing is lost.
 *
 * Takes    facts in any order, repeated or not
 * Returns  the same state for the same set, whatever the order
 */
export function foldClaim(facts: Iterable<Fact>): ClaimState {
  const saves = [...onceEach(facts).values()]
    .filter((fact): fact is FactOf<"claim-saved"> => fact.kind === "claim-saved")
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const versions = new Map(saves.map((save) => [save.id, versionOf(save)]));
  const leaves = leavesOf(saves).map(versionOf);
  return { current: leaves.at(-1) ?? null, others: leaves.slice(0, -1).reverse(), versions };
}

const versionOf = ({ id, device, at, body }: FactOf<"claim-saved">): ClaimVersion => ({
  event: id,
  device,
  at,
  over: [...(body.base === null ? [] : [body.base]), ...body.merged],
  claim: body.claim,
  known: body.known,
});

/** A result that a prediction can have been made with knowledge of: of an attached study, or one typed or weighed here. */
export type ResultOf = { measure: string; study: string | null };

/** What stood when a result became known: by explanation, in each of the last versions before. */
export type Stood = readonly Readonly<Record<string, Prediction>>[];

/** A version at hand that may not be written yet: what it is written over, and what its writer can know. */
export type AtHand = { over: readonly string[]; claim: Claim; known: readonly string[] };

/**
 * The predictions as they stood before a result could be known. A version knows a result when its event says so, or when
 * any version that it goes back to does: neither clocks nor places in the log are asked.
 *
 * Takes    versions: all of the claim; now: the version at hand
 * Returns  null while the version at hand does not know the result; else the predictions of the last versions before the
 *          knowledge in which the study was attached to that measure (of a typed result: in which the measure was
 *          there); empty where there is none, so that everything was said after the result was known
 */
export function stoodBefore(
  versions: ReadonlyMap<string, ClaimVersion>,
  now: AtHand,
  { measure, study }: ResultOf,
): Stood | null {
  const back = ancestorsOf(versions, now.over);
  const knows = ({ claim, known }: Pick<ClaimVersion, "claim" | "known">): boolean =>
    study === null ? holdsResult(measureIn(claim, measure)) : known.includes(study);
  const knowing = withFollowers(back, [...back.values()].filter(knows));
  if (!knows({ claim: now.claim, known: [...now.known] }) && !now.over.some((event) => knowing.has(event))) return null;
  const before = [...back.values()].filter(({ event, claim }) => {
    const found = measureIn(claim, measure);
    if (!found || knowing.has(event)) return false;
    return study === null || found.attached.some((each) => each.study === study);
  });
  const earlier = ancestorsOf(
    versions,
    before.flatMap(({ over }) => over),
  );
  return before
    .filter(({ event }) => !earlier.has(event))
    .map(({ claim }) => measureIn(claim, measure)?.predictions ?? {});
}

/** Studies that were attached to a measure, were taken off again, and whose results were known then or are now. */
export function takenOff(versions: ReadonlyMap<string, ClaimVersion>, now: AtHand): { study: string; name: string }[] {
  const back = [...ancestorsOf(versions, now.over).values()];
  const known = new Set([...now.known, ...back.flatMap((version) => version.known)]);
  const attached = new Set(now.claim.measures.flatMap((each) => each.attached.map(({ study }) => study)));
  const list = new Map<string, string>();
  for (const { claim } of back) {
    for (const measure of claim.measures) {
      for (const { study } of measure.attached) {
        if (known.has(study) && !attached.has(study)) list.set(study, measure.name);
      }
    }
  }
  return [...list].map(([study, name]) => ({ study, name }));
}

/** Does it hold a result of its own: typed by hand, or a loss of a batch weighed here? */
const holdsResult = (measure: Measure | undefined): boolean =>
  measure !== undefined && (measure.typed !== null || (measure.weighed !== null && holdsLosses(measure.weighed)));

const measureIn = (claim: Claim, measure: string): Measure | undefined =>
  claim.measures.find(({ id }) => id === measure);

/** Versions that these go back to, themselves among them. */
function ancestorsOf(
  versions: ReadonlyMap<string, ClaimVersion>,
  from: readonly string[],
): ReadonlyMap<string, ClaimVersion> {
  const found = new Map<string, ClaimVersion>();
  const queue = [...from];
  for (let event = queue.pop(); event !== undefined; event = queue.pop()) {
    const version = versions.get(event);
    if (!version || found.has(event)) continue;
    found.set(event, version);
    queue.push(...version.over);
  }
  return found;
}

/** The events of these versions and of all that were written over them, within the set. */
function withFollowers(all: ReadonlyMap<string, ClaimVersion>, from: readonly ClaimVersion[]): ReadonlySet<string> {
  const followers = new Map<string, string[]>();
  for (const { event, over } of all.values()) {
    for (const before of over) followers.set(before, [...(followers.get(before) ?? []), event]);
  }
  const found = new Set<string>();
  const queue = from.map(({ event }) => event);
  for (let event = queue.pop(); event !== undefined; event = queue.pop()) {
    if (found.has(event)) continue;
    found.add(event);
    queue.push(...(followers.get(event) ?? []));
  }
  return found;
}
