import { sha256 } from "../model/canonical.ts";
import type { Envelope, Fact, Heads } from "../model/event.ts";

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

/** Ids of facts whose `prev` is not the hash of the device's event before: kept, but shown. */
export function brokenLinks(facts: Iterable<Fact>): string[] {
  const byPlace = new Map<string, Fact>();
  for (const fact of facts) byPlace.set(`${fact.device} ${fact.seq}`, fact);
  return [...byPlace.values()]
    .filter((fact) => {
      const before = byPlace.get(`${fact.device} ${fact.seq - 1}`);
      return fact.seq === 1 ? fact.prev !== null : before !== undefined && fact.prev !== before.hash;
    })
    .map((fact) => fact.id);
}
