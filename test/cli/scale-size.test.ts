import { describe, expect, test } from "vitest";
import { inProcess } from "./terminal.ts";

const words = (text: string) => text.split(" ");
async function said(options: string): Promise<string> {
  const { code, out, err } = await inProcess("size", "--method", "line-scale", ...words(options));
  expect([code, err]).toEqual([0, ""]);
  return out;
}
const sized = async (options: string) => JSON.parse(await said(`${options} --json`));

// R 4.2.2, power.t.test(type = "paired", strict = TRUE) and pt, pf with ncp: test/reference/scale-size-by-r
describe("size of a line scale, R 4.2.2", () => {
  test("people for a difference", async () => {
    expect(await sized("--difference 8 --deviation 12")).toMatchObject({ asked: "people", people: 38, products: 2 });
    expect((await sized("--difference 8 --deviation 12 --beta 0.1")).people).toBe(50);
  });
  test("what so many people find, and how often they find a difference", async () => {
    const found = await sized("--people 12 --deviation 12");
    expect(found.asked).toBe("effect");
    expect(found.difference).toBeCloseTo(15.080962970860453, 7);
    const chance = await sized("--people 30 --difference 8 --deviation 12 --products 3");
    expect(chance.power).toBeCloseTo(0.54941032200145523, 10);
    expect(chance.productsPower).toBeCloseTo(0.60858157645214228, 8);
    const blocks = await sized("--people 28 --difference 12 --deviation 10 --products 7 --per-tray 3");
    expect(blocks.power).toBeCloseTo(0.28625241890689923, 10);
  });
});

test("in words: sentence first, what is supposed last", async () => {
  const lines = (await said("--difference 8 --deviation 12")).trim().split("\n");
  expect(lines[1]).toBe("For a difference of 8\u00a0points: 38 people. They find it 81\u00a0% of the time.");
  expect(lines.at(-1)).toMatch(/supposes that one person's marks scatter by 12/);
  expect(await said("--people 30 --difference 8 --deviation 12 --products 3")).toMatch(/one pair among 3.*61\u00a0%/);
  expect(await said("--people 1 --deviation 12")).toMatch(/1 person cannot find even 100/);
  expect(await said("--difference 0.1 --deviation 50")).toMatch(/More than 5000 people/);
});

test("steps of a scale: the same study in its own unit, and the answer in it (of nine steps one is 12.5 points)", async () => {
  const [points, steps] = [
    await sized("--people 12 --deviation 12.5"),
    await sized("--people 12 --deviation 1 --steps 9"),
  ];
  expect([points.steps, steps.steps, steps.deviation]).toEqual([null, 9, 1]);
  expect(steps.difference).toBeCloseTo(points.difference / 12.5, 10);
  expect(steps.halfWidth).toBeCloseTo(points.halfWidth / 12.5, 10);
  const text = await said("--difference 0.64 --deviation 0.96 --steps 9");
  expect(text).toContain("For a difference of 0.64\u00a0steps: 38 people.");
  expect(text).toContain("scatter by 0.96\u00a0steps");
  expect(text).not.toContain("points");
  expect(await said("--people 1 --deviation 1 --steps 5")).toContain("cannot find even 4\u00a0steps");
});

test.each([
  [
    "a difference wider than the steps",
    "--method line-scale --difference 8.5 --deviation 1 --steps 9",
    /steps from 0\.01 to 8/,
  ],
  ["no deviation", "--method line-scale --difference 8", /needs --deviation/],
  ["no difference", "--method line-scale --deviation 8", /needs --difference/],
  ["a share", "--method line-scale --deviation 8 --pd 0.3", /--pd is “0\.3”.*--difference says/],
  ["a deviation of 0", "--method line-scale --difference 8 --deviation 0", /--deviation is “0”.*0\.01 to 100/],
  [
    "more on a tray than there are",
    "--method line-scale --difference 8 --deviation 9 --per-tray 3",
    /--per-tray is “3”/,
  ],
  ["points of a triangle", "--method triangle --pd 0.3 --difference 8", /--difference is “8”.*left out for triangle/],
])("%s is refused by name", async (_, options, sentence) => {
  const { code, out, err } = await inProcess("size", ...words(options));
  expect([code, out]).toEqual([2, ""]);
  expect(err).toMatch(sentence);
});
