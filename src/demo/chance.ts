import { seeded } from "../design/random.ts";
import { newPassphrase } from "../seal/passphrase.ts";
import type { RandomBytes } from "../seal/random.ts";

/**
 * The demo's only source of chance. A real study draws its codes, its key and its passphrase from the cryptographic
 * source; the demo's are the same each time, so that its numbers come out and everybody may know its passphrase.
 */
const seed = "00c10c4e";

/** The seed of the orders and batches of one study of the demo ("Q7"), as its report prints it: hex digits. */
export const designSeed = (name: string): string => `${seed}${name.slice(1).padStart(2, "0")}`;

export const chance = (purpose: string) => seeded(seed, purpose);

/** Bytes for what is drawn at random elsewhere. They protect nothing here. */
export function seededBytes(purpose: string): RandomBytes {
  const random = chance(purpose);
  return (length) => Uint8Array.from({ length }, () => random.below(256));
}

/** Opens the key of every study of the demo. */
export const demoPassphrase = (): string => newPassphrase(seededBytes("passphrase"));

/** Evenly between two bounds, in steps of a thousandth of the way. */
export const between = (random: ReturnType<typeof chance>, low: number, high: number): number =>
  low + ((high - low) * random.below(1001)) / 1000;

/** 64 hex digits. */
export const salt = (random: ReturnType<typeof chance>): string =>
  Array.from({ length: 64 }, () => random.below(16).toString(16)).join("");
