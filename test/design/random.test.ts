import { expect, test } from "vitest";
import { dealtEvenly, dealtInBlocks, seeded, shuffled } from "../../src/design/random.ts";

test("a seeded source gives the same numbers for the same seed and purpose, others for another", () => {
  const draws = (seed: string, purpose: string) => {
    const random = seeded(seed, purpose);
    return Array.from({ length: 20 }, () => random.below(1000));
  };
  expect(draws("ab12", "orders")).toEqual(draws("ab12", "orders"));
  expect(draws("ab12", "orders")).not.toEqual(draws("ab13", "orders"));
  expect(draws("ab12", "orders")).not.toEqual(draws("ab12", "batches"));
});

test("whole numbers below 7 come equally often: chi-square of 70,000 draws under 22.46 (6 df, 0.1 %, any table)", () => {
  const random = seeded("5eed", "test");
  const counts = Array<number>(7).fill(0);
  for (let draw = 0; draw < 70_000; draw++) {
    const drawn = random.below(7);
    counts[drawn] = (counts[drawn] ?? 0) + 1;
  }
  const chiSquare = counts.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0);
  expect(chiSquare).toBeLessThan(22.46);
});

test("each of the 6 orders of three items comes equally often: chi-square under 20.52 (5 df, 0.1 %, any table)", () => {
  const random = seeded("5eed", "shuffle");
  const counts = new Map<string, number>();
  for (let draw = 0; draw < 12_000; draw++) {
    const order = shuffled(["a", "b", "c"], random).join("");
    counts.set(order, (counts.get(order) ?? 0) + 1);
  }
  expect(counts.size).toBe(6);
  const chiSquare = [...counts.values()].reduce((sum, count) => sum + (count - 2_000) ** 2 / 2_000, 0);
  expect(chiSquare).toBeLessThan(20.52);
});

test("a shuffle leaves the items given as they were", () => {
  const items = [1, 2, 3];
  shuffled(items, seeded("1", "test"));
  expect(items).toEqual([1, 2, 3]);
});

test("items dealt in blocks: each once in every whole block, no repeat in the last part, whatever the seed", () => {
  for (let seed = 0; seed < 50; seed++) {
    const dealt = dealtInBlocks(["a", "b", "c"], 8, seeded(String(seed), "test"));
    expect(dealt).toHaveLength(8);
    expect(new Set(dealt.slice(0, 3)).size).toBe(3);
    expect(new Set(dealt.slice(3, 6)).size).toBe(3);
    expect(new Set(dealt.slice(6)).size).toBe(2);
  }
});

test("items dealt evenly differ by one at most; none to deal gives none", () => {
  const dealt = dealtEvenly(["x", "y"], 7, seeded("2", "test"));
  const counts = ["x", "y"].map((item) => dealt.filter((other) => other === item).length);
  expect(counts.toSorted()).toEqual([3, 4]);
  expect(dealtEvenly([], 4, seeded("2", "test"))).toEqual([]);
});
