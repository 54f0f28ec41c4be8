import type { Uniform } from "../analysis/seeded.ts";

export { seeded, type Uniform } from "../analysis/seeded.ts";

/** The same items in an order drawn at random, every order equally likely (Fisher and Yates). */
export function shuffled<T>(items: readonly T[], random: Uniform): T[] {
  const mixed = [...items];
  for (let drawn = 0; drawn < mixed.length; drawn++) {
    const from = drawn + random.below(mixed.length - drawn);
    const item = mixed[from] as T;
    // what is left moves up and keeps its order; in place, since a large plan shuffles tens of thousands of short lists
    for (let at = from; at > drawn; at--) mixed[at] = mixed[at - 1] as T;
    mixed[drawn] = item;
  }
  return mixed;
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
