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

/** The same items in an order drawn at random, every order equally likely (Fisher and Yates). */
export function shuffled<T>(items: readonly T[], random: Uniform): T[] {
  const left = [...items];
  const drawn: T[] = [];
  while (left.length > 0) drawn.push(...left.splice(random.below(left.length), 1));
  return drawn;
}

/**
 * Deals `items` to `places` places as evenly as can be: each item equally often, the rest by lot without repeats.
 * The places are in random order as a whole; see `dealtInBlocks` where balance must hold along the way too.
 */
export function dealtEvenly<T>(items: readonly T[], places: number, random: Uniform): T[] {
  return shuffled(dealtInBlocks(items, places, random), random);
}

/** Deals `items` in shuffled blocks, each item once in a block; the last block is a random part without repeats. */
export const dealtInBlocks = <T>(items: readonly T[], places: number, random: Uniform): T[] =>
  dealtInRuns([items], places, random);

/** The same with blocks that take turns: each run of items is dealt whole, shuffled, before the next one. */
export function dealtInRuns<T>(runs: readonly (readonly T[])[], places: number, random: Uniform): T[] {
  const dealt: T[] = [];
  const filled = runs.filter(({ length }) => length > 0);
  for (let at = 0; filled.length > 0 && dealt.length < places; at++) {
    dealt.push(...shuffled(filled[at % filled.length] ?? [], random));
  }
  return dealt.slice(0, places);
}
