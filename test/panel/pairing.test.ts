import { describe, expect, test } from "vitest";
import { type Pairing, pairsOf, partnerOf, swapped, touched } from "../../src/panel/choice/pairing.ts";

// Four samples fall into two pairs in three ways; each is named by the code that goes with the first one.
const codes = ["482", "715", "309", "614"];
const none: Pairing = { picked: null, held: null };
const touch = (...order: string[]): Pairing => order.reduce((now, code) => touched(codes, now, code), none);

describe("two are touched, one after the other", () => {
  test.each([
    ["482", "715", "715"],
    ["482", "309", "309"],
    ["482", "614", "614"],
    ["715", "309", "614"],
    ["715", "614", "309"],
    ["309", "614", "715"],
  ])("%s and %s: the first one goes with %s, in whichever order they are touched", (one, other, partner) => {
    expect(touch(one, other)).toEqual({ picked: partner, held: null });
    expect(touch(other, one)).toEqual({ picked: partner, held: null });
    expect(partnerOf(codes, touch(one, other), one)).toBe(other);
    expect(partnerOf(codes, touch(one, other), other)).toBe(one);
  });

  test("one alone waits, and is let go by the same touch again", () => {
    expect(touch("309")).toEqual({ picked: null, held: "309" });
    expect(touch("309", "309")).toEqual(none);
  });

  test("a touch on standing pairs takes them apart, so that nothing is kept half way", () => {
    expect(touch("482", "715", "614")).toEqual({ picked: null, held: "614" });
    expect(touch("482", "715", "614", "715").picked).toBe("309");
  });
});

test("pairs stand in serving order, that of the first code first", () => {
  expect(pairsOf(codes, "309")).toEqual([
    ["482", "309"],
    ["715", "614"],
  ]);
});

test("swapping goes through all three ways and back, and does nothing without pairs", () => {
  const once = swapped(codes, { picked: "715", held: null });
  const twice = swapped(codes, once);
  expect([once.picked, twice.picked, swapped(codes, twice).picked]).toEqual(["309", "614", "715"]);
  expect(swapped(codes, { picked: null, held: "482" })).toEqual(none);
});
