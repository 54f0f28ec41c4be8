import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { type JustRightRow, justRight } from "../../src/analysis/just-right.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";

const numbers = z.array(z.number());
const product = z.object({ counts: numbers, shares: z.array(numbers), little: numbers, much: numbers });
const byR = reference("just-right-by-r", z.object({ current: product, new: product }));
const file = new URL("../reference/just-right-by-r/data.csv", import.meta.url);
const rows = readFileSync(file, "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line): JustRightRow => {
    const [panelist = "", product = "", step, liking = ""] = line.split(",");
    return { panelist, product, step: Number(step), liking: liking === "" ? null : Number(liking) };
  });

const row = (panelist: string, step: number, liking: number | null, product = "new"): JustRightRow => ({
  panelist,
  product,
  step,
  liking,
});

describe("40 people, five steps, liking of nine; test/reference/just-right-by-r", () => {
  const found = justRight(rows, ["current", "new"], 5, 0.95);
  test.each(["current", "new"] as const)("%s: counts, exact shares and Welch's drops as R has them", (name) => {
    const one = found.find(({ product }) => product === name);
    const truth = byR[name];
    expect(one?.counts).toEqual(truth.counts);
    (["little", "right", "much"] as const).forEach((side, at) => {
      const share = one?.shares[side];
      [share?.estimate, share?.low, share?.high].forEach((value, place) => {
        expect(relativeError(value ?? Number.NaN, truth.shares[at]?.[place] ?? 0)).toBeLessThan(1e-12);
      });
    });
    for (const side of ["little", "much"] as const) {
      const drop = one?.drops[side];
      const { low, high, df, pValue } = drop?.test ?? { low: 0, high: 0, df: 0, pValue: 0 };
      const got = [drop?.meanRight, drop?.meanSide, drop?.drop, low, high, df, pValue];
      got.forEach((value, place) => {
        expect(relativeError(value ?? Number.NaN, truth[side][place] ?? 0), `${side} ${place}`).toBeLessThan(1e-10);
      });
    }
  });
});

test("a side under a fifth of the answers is too few to say; one of exactly a fifth is not (common practice, no source)", () => {
  const steps = [1, 1, 2, 2, 2, 2, 2, 2, 2, 3];
  const [one] = justRight(
    steps.map((step, at) => row(`p${at}`, step, 5 + (at % 2))),
    ["new"],
    3,
    0.95,
  );
  expect([one?.drops.little.tooFew, one?.drops.much.tooFew]).toEqual([false, true]);
  // one person has no spread of their own
  expect(one?.drops.much).toMatchObject({ people: 1, test: null });
});

test("what cannot be said is null: nobody on a side, no liking, no spread, a product without answers", () => {
  const even = ["a", "b", "c", "d"].map((panelist, at) => row(panelist, at < 2 ? 1 : 2, at < 2 ? 4 : 7));
  const [one, none] = justRight(even, ["new", "current"], 3, 0.95);
  expect(one?.drops.little).toMatchObject({ drop: 3, test: null });
  expect(one?.drops.much).toMatchObject({ people: 0, meanSide: null, drop: null, test: null });
  expect(none).toMatchObject({ judgments: 0, counts: [0, 0, 0], shares: { right: { estimate: null, kind: "none" } } });
});

test("two answers of one person for one product: estimates, and no bounds from pooled answers", () => {
  const twice = [row("a", 1, 4), row("a", 2, 7), row("b", 1, 3), row("c", 2, 8), row("d", 2, 6)];
  const [one] = justRight(twice, ["new"], 3, 0.95);
  expect(one?.shares.right).toMatchObject({ estimate: 0.6, low: null, high: null, kind: "none" });
  expect(one?.drops.little).toMatchObject({ drop: 3.5, test: null });
});

test("a step that the scale lacks is named", () => {
  expect(problemOf(() => justRight([row("a", 4, 5)], ["new"], 3, 0.95))).toMatchObject({
    code: "analysis/not-a-count",
    details: { name: "step", value: "4" },
  });
});
