import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";
import { sha256 } from "../model/canonical.ts";

/** Any source of chance: a seeded one for the orders, a cryptographic one for the codes. */
export type Uniform = {
  /** A whole number from 0 to n - 1, each equally likely; n is whole, 1 to 2^32. */
  below(n: number): number;
};

/**
 * A source that gives the same numbers for the same seed, for ever.
 *
 * Takes    seed: any text (hex digits by custom), of which every character counts;
 *          purpose: what the numbers are for, so that one use does not shift the numbers of another
 * Source   the generator is xoroshiro128+ (Blackman and Vigna 2018, from memory), not for secrets
 */
export function seeded(seed: string, purpose: string): Uniform {
  const digest = sha256(`${purpose}\n${seed}`);
  const state = [0, 8, 16, 24].map((at) => Number.parseInt(digest.slice(at, at + 8), 16) | 0);
  const generator = xoroshiro128plusFromState(state);
  return { below: (n) => uniformInt(generator, 0, n - 1) };
}
