import type { Act } from "./acts.ts";
import { minutesOf } from "./acts.ts";
import type { Lock } from "./lock.ts";

const beforeTasting = [
  "kitchen-by-product",
  "kitchen-by-tray",
  "sealed-page",
  "tray-cards",
  "labels",
  "seating",
] as const;

/** The lead's morning: the plan is saved and locked. */
export function lockActs(lock: Lock, newEventId: () => string, times: { drafted: string; locked: string }): Act[] {
  const { plan } = lock.body;
  return [
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf(times.drafted),
      kind: "draft-saved",
      body: { base: null, merged: [], plan },
    },
    { id: newEventId(), by: "lead", at: minutesOf(times.locked), kind: "study-locked", body: lock.body },
  ];
}

/** All papers, printed one after the other. */
export const paperActs = (newEventId: () => string, from: string): Act[] =>
  beforeTasting.map((paper, at) => ({
    id: newEventId(),
    by: "lead",
    at: minutesOf(from) + at,
    kind: "paper-printed",
    body: { paper, reprint: false },
  }));

const withKey = ["kitchen-by-product", "kitchen-by-tray"] as const;

/** The end of a tasting: the sheets with the key are back; then closed, then opened, each naming all that was there. */
export function endActs(
  lock: Lock,
  newEventId: () => string,
  end: { closed: string; revealed: string; note: string },
): Act[] {
  const { opened } = lock;
  return [
    ...withKey.map(
      (paper, at): Act => ({
        ...{ id: newEventId(), by: "lead", at: minutesOf(end.closed) - 1 + at / 4, kind: "sheet-returned" },
        body: { paper, note: "" },
      }),
    ),
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf(end.closed),
      kind: "study-closed",
      body: ({ heads }) => ({ heads, knownUnsent: 0, note: end.note }),
    },
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf(end.revealed),
      kind: "key-revealed",
      body: ({ heads }) => ({ heads, opened }),
    },
  ];
}
