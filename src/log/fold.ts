import type { Fact, Kind } from "../model/event.ts";
import type { Plan } from "../model/plan.ts";
import { type FactOf, onceEach, within } from "./fact.ts";
import { leavesOf } from "./leaves.ts";
import { type Look, looksOf } from "./looks.ts";
import { foldTrays, type TrayState } from "./trays.ts";

/** One version of a draft, and who wrote it when (a clock: shown, never compared). */
export type DraftVersion = { event: string; device: string; at: string; plan: Plan };

export type StudyState = {
  /** The draft that counts while the plan is open; and others that were written without knowing of it, newest first. */
  draft: DraftVersion | null;
  otherDrafts: DraftVersion[];
  lock: FactOf<"study-locked"> | null;
  close: FactOf<"study-closed"> | null;
  reveal: FactOf<"key-revealed"> | null;
  /** Locks, closes, reveals and looks that lost to one with a lower id, or came after the close: shown, never used. */
  rivals: Fact[];
  /** Looks of the stopping rule, by their number. */
  looks: Look[];
  trays: Map<number, TrayState>;
  /** Answers to trays the plan does not have, or with a code the tray does not carry. */
  offPlan: Fact[];
  papers: FactOf<"paper-printed">[];
  /** Masses beside the answers; and, newest first, other versions that were written without knowing of them. */
  masses: FactOf<"masses-noted"> | null;
  otherMasses: FactOf<"masses-noted">[];
  /** Sound, known events, once each. */
  facts: Map<string, Fact>;
};

/**
 * The state of a study from its facts.
 *
 * Takes    facts in any order, repeated or not; of two facts with one id the fuller one counts
 * Returns  the same state for the same set, whatever the order: it reads neither positions nor clocks, only
 *          sequence numbers within a device, references written into events, and ids as a tie-break
 */
export function foldStudy(facts: Iterable<Fact>): StudyState {
  const known = onceEach(facts);
  const sorted = [...known.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const of = <K extends Kind>(kind: K) => sorted.filter((fact): fact is FactOf<K> => fact.kind === kind);

  const [lock = null, ...rivalLocks] = of("study-locked");
  const [close = null, ...rivalCloses] = of("study-closed");
  const [reveal = null, ...rivalReveals] = of("key-revealed");
  const drafts = leavesOf(of("draft-saved")).map(({ id, device, at, body }) => ({
    ...{ event: id, device, at, plan: body.plan },
  }));

  const masses = leavesOf(of("masses-noted"));
  const heads = { close: close?.body.heads ?? null, reveal: reveal?.body.heads ?? null };
  /** Rulings after the reveal change nothing: whoever makes them has seen the key. */
  const ruling = <K extends Kind>(kind: K) => of(kind).filter((fact) => within(fact, heads.reveal));
  const { trays, offPlan } = foldTrays(sorted, lock?.body.packet ?? null, {
    heads,
    voids: ruling("ballot-voided"),
    settlements: ruling("contest-settled"),
    spares: ruling("spare-served"),
    admissions: ruling("late-admitted"),
  });
  const { looks, others } = looksOf(of("look-begun"), of("look-done"), heads.close);
  return {
    draft: drafts.at(-1) ?? null,
    otherDrafts: drafts.slice(0, -1).reverse(),
    lock,
    close,
    reveal,
    rivals: [...rivalLocks, ...rivalCloses, ...rivalReveals, ...others],
    looks,
    trays,
    offPlan,
    papers: of("paper-printed"),
    masses: masses.at(-1) ?? null,
    otherMasses: masses.slice(0, -1).reverse(),
    facts: known,
  };
}
