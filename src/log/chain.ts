import type { Envelope, Heads } from "../model/ballot-event.ts";
import { sha256 } from "../model/canonical.ts";

/** The server's chain: each link covers the one before and the stored text. The first follows 64 zeros. */
export const chainStart = "0".repeat(64);
export const chainLink = (previous: string, text: string): string => sha256(`${previous}\n${text}`);

/** Highest gapless sequence number by device, counted from 1, among the envelopes given (any order, repeats allowed). */
export function headsOf(envelopes: Iterable<Pick<Envelope, "device" | "seq">>): Heads {
  const seqs = new Map<string, Set<number>>();
  for (const { device, seq } of envelopes) {
    const known = seqs.get(device) ?? new Set();
    seqs.set(device, known.add(seq));
  }
  return Object.fromEntries(
    [...seqs].map(([device, known]) => {
      let head = 0;
      while (known.has(head + 1)) head += 1;
      return [device, head];
    }),
  );
}

/** What the chain of a device needs to know of an event: whatever its body says, read or not. */
export type Link = Pick<Envelope, "id" | "device" | "seq" | "prev"> & { hash: string };

/**
 * Ids of events that do not follow what their device wrote before: `prev` is not the hash of the event before, that
 * event is not there, or another event claims the same place. They are kept, but shown.
 */
export function brokenLinks(links: Iterable<Link>): string[] {
  const byHash = new Map<string, Link>();
  for (const link of links) byHash.set(link.hash, link);
  const places = new Map<string, Link[]>();
  for (const link of byHash.values()) {
    const place = placeOf(link.device, link.seq);
    places.set(place, [...(places.get(place) ?? []), link]);
  }
  const follows = ({ device, seq, prev }: Link): boolean =>
    seq === 1 ? prev === null : (places.get(placeOf(device, seq - 1)) ?? []).some(({ hash }) => hash === prev);
  const alone = ({ device, seq }: Link): boolean => places.get(placeOf(device, seq))?.length === 1;
  return [...byHash.values()].filter((link) => !follows(link) || !alone(link)).map(({ id }) => id);
}

/**
 * How many events the heads name and nothing at hand fills, wherever in a device's chain they are missing: in the
 * middle, at its end, or all of it. Meaningful for full logs only; events held for a newer app fill their place.
 */
export function missingFrom(heads: readonly Heads[], links: Iterable<Pick<Link, "device" | "seq">>): number {
  const named = new Map<string, number>();
  for (const [device, head] of heads.flatMap((each) => Object.entries(each))) {
    named.set(device, Math.max(head, named.get(device) ?? 0));
  }
  const filled = new Set<string>();
  for (const { device, seq } of links) {
    if (seq <= (named.get(device) ?? 0)) filled.add(placeOf(device, seq));
  }
  return [...named.values()].reduce((sum, head) => sum + head, 0) - filled.size;
}

const placeOf = (device: string, seq: number): string => `${device} ${seq}`;
