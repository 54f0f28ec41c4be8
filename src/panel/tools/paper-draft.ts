import { useRef } from "preact/hooks";
import * as z from "zod/mini";
import type { EventStore } from "../../device/event-store.ts";
import { noMarkReasons } from "../../model/ballot-event.ts";
import { count, id, instant, trayNumber } from "../../model/schema.ts";
import type { AppParts } from "../parts.ts";
import type { Person } from "./paper-log.ts";
import type { Form } from "./paper-reading.ts";

/**
 * What somebody has typed of a ballot on paper and not kept yet: on disk after every change. Each of the two people has
 * a draft of their own, so that the second one never meets what the first one began.
 */

const entry = z.strictObject({
  picked: z.string(),
  guess: z.boolean(),
  places: z.record(z.string(), z.string()),
  mm: z.string(),
  why: z.nullable(z.enum(noMarkReasons)),
});
const draft = z.strictObject({
  study: id,
  tray: trayNumber,
  person: z.union([z.literal(1), z.literal(2)]),
  consent: z.boolean(),
  cleared: z.boolean(),
  lineMm: z.string(),
  /** Pairs, since a record's keys are texts. */
  entries: z.array(z.tuple([count, entry])),
  savedAt: instant,
});

export type Begun = { tray: number; person: Person };

const prefix = (study: string): string => `paper ${study} `;
export const paperDraftName = (study: string, { tray, person }: Begun): string => `${prefix(study)}${tray} ${person}`;

/** The form as it was left; null where nothing was begun. */
export async function readPaperDraft(store: EventStore, study: string, begun: Begun): Promise<Form | null> {
  const read = z.safeParse(draft, await store.draft(paperDraftName(study, begun)));
  if (!read.success) return null;
  const { consent, cleared, lineMm, entries } = read.data;
  return { consent, cleared, lineMm, entries: Object.fromEntries(entries) };
}

/** Which typings were begun on this tablet and not kept, by tray. */
export async function begunTypings(store: EventStore, study: string): Promise<Begun[]> {
  const names = await store.draftNames(prefix(study));
  return names
    .map((name) => name.slice(prefix(study).length).split(" ").map(Number))
    .map(([tray = 0, person]): Begun => ({ tray, person: person === 2 ? 2 : 1 }))
    .sort((a, b) => a.tray - b.tray || a.person - b.person);
}

/**
 * Lays down each change, one write after the other, and says of every write whether it worked: what is on the screen
 * stays there either way.
 */
export function usePaperDraft({ store, clock }: AppParts, study: string, tell: (thrown: unknown) => void) {
  const writing = useRef<Promise<void>>(Promise.resolve());
  const write = (job: () => Promise<void>): void => {
    writing.current = writing.current.then(job).then(() => tell(null), tell);
  };
  const save = ({ entries, ...form }: Form, begun: Begun): void => {
    const pairs = Object.entries(entries).map(([question, value]) => [Number(question), value]);
    const value = { study, ...begun, ...form, entries: pairs, savedAt: clock.instant() };
    write(() => store.saveDraft(paperDraftName(study, begun), value));
  };
  const drop = (begun: Begun): void => write(() => store.dropDraft(paperDraftName(study, begun)));
  /** Once all that was to be written is written, or was told to be not. */
  const settled = (): Promise<void> => writing.current;
  return { save, drop, settled };
}
