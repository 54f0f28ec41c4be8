import { expect, test } from "vitest";
import { laidDown, orderOf, placed } from "../../src/panel/choice/ordering.ts";

// What each touch must do follows from what the ballot says; the codes are invented.
const codes = ["482", "715", "309"];

test("a touch takes the next place, and the whole order is the answer, least first", () => {
  let order: string[] = [];
  for (const code of ["309", "482"]) order = placed(order, code);
  expect(laidDown(codes, order)).toEqual({ picked: null, held: "309 482" });
  order = placed(order, "715");
  expect(laidDown(codes, order)).toEqual({ picked: "309 482 715", held: null });
});

test("a second touch takes a sample out, and those after it move up", () => {
  expect(placed(["309", "482", "715"], "482")).toEqual(["309", "715"]);
});

test("what lies there is the order again; nothing lies there while no sample has a place", () => {
  expect(orderOf({ picked: "309 482 715", held: null })).toEqual(["309", "482", "715"]);
  expect(orderOf({ picked: null, held: "309" })).toEqual(["309"]);
  expect(orderOf(laidDown(codes, []))).toEqual([]);
  expect(laidDown(codes, [])).toEqual({ picked: null, held: null });
});
