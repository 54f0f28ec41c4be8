import { writeEvent } from "../log/facts.ts";
import type { Attachment, Heads, StreamName } from "../model/ballot-event.ts";
import type { Body, Kind } from "../model/event.ts";

/** Who writes: the lead's laptop, or a tablet by its place in `tabletNames`. */
export type By = "lead" | 0 | 1 | 2;

/** What only the writing tells: the heads of all that was written before, the ids of the devices, and instants. */
export type Known = {
  heads: Heads;
  device: (by: By) => string;
  /** The instant so many minutes before the act, by a clock that is right. */
  ago: (minutes: number) => string;
};

/** One thing that happened. `at`: minutes after midnight of the demo's day, by a clock that is right. */
export type Act = {
  [K in Kind]: {
    id: string;
    by: By;
    at: number;
    kind: K;
    body: Body<K> | ((known: Known) => Body<K>);
    /** A remark that belongs to the event. */
    attachment?: Omit<Attachment, "event">;
  };
}[Kind];

export type WrittenAct = { by: By; text: string; attachment: Attachment | null };

/** What a writer needs of its surroundings. */
export type Desk = {
  stream: StreamName;
  device: (by: By) => string;
  /** Minutes that local time is behind UTC, as `Date.getTimezoneOffset` tells: the demo's day is a day here. */
  offsetMinutes: number;
};

const day = Date.UTC(2026, 4, 12);
/** The clock of Tablet B is seven minutes slow. */
const slowMinutes: Record<By, number> = { lead: 0, 0: 0, 1: 7, 2: 0 };

/** Writes what happened into the logs of its devices: in order of time, each device's events gapless and chained. */
export function writeActs(acts: readonly Act[], desk: Desk): WrittenAct[] {
  const last = new Map<string, { seq: number; hash: string }>();
  return acts
    .toSorted((one, other) => one.at - other.at)
    .map((act) => {
      const device = desk.device(act.by);
      const heads: Heads = Object.fromEntries([...last].map(([each, { seq }]) => [each, seq]));
      const before = last.get(device);
      const seq = (before?.seq ?? 0) + 1;
      const ago = (minutes: number) => instantOf(act.at - minutes, desk.offsetMinutes);
      const written = writeEvent({
        id: act.id,
        stream: desk.stream,
        device,
        seq,
        prev: before?.hash ?? null,
        at: instantOf(act.at - slowMinutes[act.by], desk.offsetMinutes),
        kind: act.kind,
        body: typeof act.body === "function" ? act.body({ heads, device: desk.device, ago }) : act.body,
      });
      last.set(device, { seq, hash: written.hash });
      return {
        by: act.by,
        text: written.text,
        attachment: act.attachment ? { event: act.id, ...act.attachment } : null,
      };
    });
}

const instantOf = (minutes: number, offsetMinutes: number): string =>
  new Date(day + Math.round((minutes + offsetMinutes) * 60_000)).toISOString();

/** "11:15" as minutes after midnight. */
export function minutesOf(clock: string): number {
  const [hours = "0", minutes = "0"] = clock.split(":");
  return Number(hours) * 60 + Number(minutes);
}
