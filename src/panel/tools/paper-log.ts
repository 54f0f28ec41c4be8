import type { EventStore } from "../../device/event-store.ts";
import type { FactOf } from "../../log/fact.ts";
import { eventText } from "../../log/reading.ts";
import type { BlindPacket } from "../../model/packet.ts";
import { differenceOf, type PaperDifference } from "../../model/paper-agree.ts";
import { type PaperTyped, paperTyped } from "../../model/paper-event.ts";
import { problem } from "../../model/problem.ts";
import type { AppParts } from "../parts.ts";
import { paperDraftName } from "./paper-draft.ts";
import type { Said } from "./paper-reading.ts";

/** The one kind of event that this page reads and writes; no other page of a tablet needs it. */
const paperEvents = eventText({ "paper-typed": paperTyped });

export type Person = PaperTyped["typing"];
type Typing = { id: string; body: PaperTyped };

/** The last typing of each of the two people on this tablet, and how often the tray was typed in here. */
export type Typings = { 1: Typing | null; 2: Typing | null; count: number };
/** As if nobody had typed the tray in here: what is typed anew is held against nothing that was typed before. */
export const freshTypings = ({ count }: Typings): Typings => ({ 1: null, 2: null, count });

export async function typingsOf(store: EventStore, study: string, tray: number): Promise<Typings> {
  const facts = await store.ownFacts({ kind: "study", id: study }, paperEvents);
  const mine = facts
    .filter((fact): fact is Extract<FactOf<"paper-typed">, { outline: false }> => fact.kind === "paper-typed")
    .filter(({ body }) => body.tray === tray)
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  let standing: Typings = { 1: null, 2: null, count: mine.length };
  for (const typing of mine) {
    standing = { ...(isChecked(standing) ? freshTypings(standing) : standing), [typing.body.typing]: typing };
  }
  return standing;
}

/** Both typed the same: what is typed after that is typed anew, as when the lead has voided the entry. */
function isChecked(typings: Typings): boolean {
  const difference = differenceHere(typings);
  return difference !== null && !differs(difference);
}

/** Where the two typings of this tablet differ; null while it has not both. */
export const differenceHere = ({ 1: first, 2: second }: Typings): PaperDifference | null =>
  first && second ? differenceOf(first.body, second.body) : null;

export const differs = ({ head, length, questions }: PaperDifference): boolean =>
  head || length || questions.length > 0;

/**
 * Keeps a typing in place of its draft, once it is on disk, and says where this tablet's two typings stand then. A second press of the same
 * button keeps nothing anew.
 */
export async function keepTyping(
  { store, clock, salt }: Pick<AppParts, "store" | "clock" | "salt">,
  { study }: BlindPacket,
  tray: number,
  person: Person,
  said: Said,
): Promise<Typings> {
  const who = await store.identity();
  if (!who) throw problem("device/not-saved", { reason: "this tablet is not enrolled" });
  const before = await typingsOf(store, study, tray);
  const other = isChecked(before) ? null : before[person === 1 ? 2 : 1];
  const agrees = other && !differs(differenceOf(said, other.body));
  const body: PaperTyped = { tray, typing: person, against: other?.id ?? null, agrees, ...said, salt: salt() };
  const mark = `paper ${study} ${tray} ${before.count + 1}`;
  const stream = { kind: "study" as const, id: study };
  const draft = paperDraftName(study, { tray, person });
  await store.append(who.device, clock.instant(), { stream, kind: "paper-typed", body, mark, draft }, paperEvents);
  return typingsOf(store, study, tray);
}
