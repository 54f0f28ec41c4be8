import { describe, expect, test } from "vitest";
import { type StripGroup, stripLayout } from "../../src/ui/strip-layout.ts";

const row = (id: string, estimate: number | null, reach = 4) => ({
  id,
  label: `${id} − current`,
  text: estimate === null ? "" : "9.8 (2.9 to 16.6)",
  ...(estimate === null
    ? { estimate, low: null, high: null }
    : { estimate, low: estimate - reach, high: estimate + reach }),
});
const groups: StripGroup[] = [
  {
    heading: "Juiciness, 10 seconds after the first bite",
    exploratory: false,
    rows: [row("new", 9), row("rested", 17)],
  },
  {
    heading: "Roasted note, 10 seconds after the first bite (exploratory)",
    exploratory: true,
    rows: [row("new 2", -2)],
  },
  { heading: "Saltiness", exploratory: false, rows: [row("none", null)] },
];

describe("the strip of differences", () => {
  test.each([320, 358, 480, 660])("at %d pixels everything stands inside, in rows that follow each other", (width) => {
    const { rows, axis, height, headings } = stripLayout(groups, width);
    const all = rows.map(({ y }) => y);
    expect(all).toEqual(all.toSorted((one, other) => one - other));
    expect(new Set(all).size).toBe(all.length);
    for (const { row: own, y } of rows) {
      expect(y).toBeLessThan(axis.y);
      for (const value of [own.low, own.estimate, own.high]) {
        if (value === null) continue;
        expect(axis.at(value)).toBeGreaterThanOrEqual(axis.from - 1e-9);
        expect(axis.at(value)).toBeLessThanOrEqual(axis.to + 1e-9);
      }
    }
    expect(Math.max(...headings.map(({ y }) => y), axis.y)).toBeLessThan(height);
    // zero is on the axis whatever the differences
    expect(axis.ticks.map(({ value }) => value)).toContain(0);
  });
  test("a long name is broken, never cut before the word that it is exploratory", () => {
    const { headings } = stripLayout(groups, 358);
    expect(headings.map(({ text }) => text).join(" ")).toContain(
      "Roasted note, 10 seconds after the first bite (exploratory)",
    );
  });
  test("one row a property, where two products are compared: the label shares a line with its mark where there is room", () => {
    const two = groups.map(({ heading, exploratory, rows }) => ({
      heading: null,
      exploratory,
      rows: rows.slice(0, 1).map((one) => ({ ...one, label: heading ?? "" })),
    }));
    const [wide, narrow] = [stripLayout(two, 660).rows[0], stripLayout(two, 358).rows[0]];
    expect(Math.abs((wide?.text.y ?? 0) - (wide?.y ?? 0))).toBeLessThan(8);
    expect((narrow?.y ?? 0) - (narrow?.text.y ?? 0)).toBeGreaterThan(8);
  });
});
