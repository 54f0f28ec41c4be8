import type { Uniform } from "../analysis/seeded.ts";

export { seeded, type Uniform } from "../analysis/seeded.ts";

/** The same items in an order drawn at random, every order equally likely (Fisher and Yates). */
export function shuffled<T>(items: readonly T[], random: Uniform): T[] {
  const left = [...items];
  const drawn: T[] = [];
  while (left.length > 0) for (const item of left.splice(random.below(left.length), 1)) drawn.push(item);
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
    for (const item of shuffled(filled[at % filled.length] ?? [], random)) dealt.push(item);
  }
  return dealt.slice(0, places);
}
