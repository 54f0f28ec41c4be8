import { expect, test } from "vitest";
import { inProcess } from "./terminal.ts";

const words = (text: string) => text.split(" ");
async function said(options: string): Promise<string> {
  const { code, out, err } = await inProcess("size", "--method", "chew-and-weigh", ...words(options));
  expect([code, err]).toEqual([0, ""]);
  return out;
}
const sized = async (options: string) => JSON.parse(await said(`${options} --json`));

// R 4.2.2, power.t.test(type = "paired", strict = TRUE): test/reference/paired-size-by-r
test("size of chewed portions, R 4.2.2", async () => {
  expect(await sized("--difference 2 --deviation 2.5")).toMatchObject({ asked: "people", people: 15, products: 2 });
  expect((await sized("--difference 3 --deviation 4 --beta 0.1")).people).toBe(21);
  expect((await sized("--difference 2 --deviation 2.5 --products 3")).people).toBe(18);
  expect((await sized("--people 12 --difference 2 --deviation 2.5")).power).toBeCloseTo(0.71366006560024464, 10);
  expect((await sized("--people 12 --deviation 2.5")).difference).toBeCloseTo(2.2216356632330516, 7);
});

test("in words: sentence first, what is supposed last", async () => {
  const lines = (await said("--difference 2 --deviation 2.5 --products 3")).trim().split("\n");
  expect(lines[1]).toMatch(/^For a difference of 2\u00a0percentage points: 18 people\./);
  expect(lines.at(-1)).toMatch(/supposes .* scatters by 2.5\u00a0percentage points/);
  expect(await said("--difference 0.01 --deviation 50")).toMatch(/More than 5000 people/);
});

test.each([
  ["no deviation", "--difference 2", /needs --deviation/],
  ["a share who can tell", "--pd 0.3 --deviation 2", /--pd/],
  ["repeats", "--repeats 3 --difference 2 --deviation 2", /--repeats.*means/],
  ["likeness", "--goal similarity --difference 2 --deviation 2", /--goal/],
  ["a deviation of nothing", "--difference 2 --deviation 0", /--deviation/],
])("refused: %s", async (_, options, sentence) => {
  const { code, out, err } = await inProcess("size", "--method", "chew-and-weigh", ...words(options));
  expect([code, out]).toEqual([2, ""]);
  expect(err).toMatch(sentence);
});
