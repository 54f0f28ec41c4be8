import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { type Reshuffled, reshuffled } from "../../src/analysis/reshuffle.ts";
import { seeded } from "../../src/analysis/seeded.ts";
import { reference } from "./reference.ts";

const { sets } = reference(
  "reshuffle-by-r",
  z.object({
    sets: z.record(
      z.string(),
      z.object({
        ways: z.number().check(z.minimum(100)),
        atLeast: z.number().check(z.minimum(1)),
        blocks: z.array(z.array(z.nullable(z.number()))).check(z.minLength(2)),
      }),
    ),
  }),
);

type Blocks = readonly (readonly (number | null)[])[];
const run = (blocks: Blocks, times: number, below: (n: number) => number): Reshuffled | null => {
  const steps = reshuffled(blocks, blocks[0]?.length ?? 0, times, below);
  for (let next = steps.next(); ; next = steps.next()) if (next.done) return next.value;
};

/** Draws that are counted on like the digits of a clock: as many shuffles as there are ways go through each of them once. */
function everyWay(blocks: Blocks): (n: number) => number {
  const sizes = blocks.flatMap((block) => {
    const values = block.filter((value) => value !== null).length;
    return Array.from({ length: values - 1 }, (_, at) => at + 2);
  });
  const digits = sizes.map(() => 0);
  let place = 0;
  return (n) => {
    if (n !== sizes[place]) throw new Error(`drawn of ${n} instead of ${sizes[place]}`);
    const drawn = digits[place] ?? 0;
    place++;
    if (place === sizes.length) {
      place = 0;
      for (let at = 0; at < sizes.length; at++) {
        digits[at] = ((digits[at] ?? 0) + 1) % (sizes[at] ?? 1);
        if (digits[at] !== 0) break;
      }
    }
    return drawn;
  };
}

describe.each(Object.entries(sets))("reshuffling within panelists, %s (every way counted by R)", (_, set) => {
  test("as many shuffles as ways, each way once: the count of R", () => {
    const found = run(set.blocks, set.ways, everyWay(set.blocks));
    expect(found?.atLeast).toBe(set.atLeast);
    expect(found?.pValue).toBe((set.atLeast + 1) / (set.ways + 1));
  });
  test("shuffles by lot come within four standard errors of the share of all ways", () => {
    const found = run(set.blocks, 5000, seeded("7", "test").below);
    expect(Math.abs((found?.pValue ?? 0) - set.atLeast / set.ways)).toBeLessThan(4 * (found?.error ?? 0));
    expect(found?.error).toBeGreaterThan(0);
  });
});

describe("reshuffling", () => {
  const blocks = sets.light?.blocks ?? [];
  test("one seed, one result", () => {
    const once = run(blocks, 500, seeded("a", "test").below);
    expect(run(blocks, 500, seeded("a", "test").below)).toEqual(once);
    expect(run(blocks, 500, seeded("b", "test").below)).not.toEqual(once);
  });
  test("says how far it is, and p is never 0", () => {
    const apart = Array.from({ length: 3000 }, (_, at) => [at, at + 1, at + 2]);
    const steps = reshuffled(apart, 3, 40, seeded("c", "test").below);
    expect(steps.next()).toEqual({ done: false, value: 11 });
    const found = run(apart, 40, seeded("c", "test").below);
    expect(found).toMatchObject({ atLeast: 0, pValue: 1 / 41 });
  });
  test("nothing to shuffle: marks that never vary, products that nobody compared", () => {
    expect(
      run(
        [
          [5, 5],
          [3, 3],
        ],
        10,
        seeded("d", "test").below,
      ),
    ).toBeNull();
    const apart: Blocks = [
      [1, 2, null, null],
      [null, null, 3, 5],
    ];
    expect(run(apart, 10, seeded("d", "test").below)).toBeNull();
  });
  test("a count of shuffles that is none is refused", () => {
    expect(() => run(blocks, 0, seeded("e", "test").below)).toThrow("analysis/not-a-count");
  });
});
