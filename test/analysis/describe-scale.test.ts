import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import type { ScaleRow } from "../../src/model/record.ts";
import type { Result } from "../../src/model/result.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan } from "../design/scenario.ts";
import { juicinessMarks, lineRecord, type Marks } from "./study-records.ts";
import { clean, texts } from "./texts.ts";

vi.setConfig({ testTimeout: 60_000 });

const words = (result: Result) => describeResult(result, report);
const marks = (rows: readonly (readonly (number | null)[])[]): Marks[] => rows.map((row) => [[...row]]);
const line = (rows: readonly (readonly (number | null)[])[], products = 3) => {
  const plan = linePlan();
  const fewer = { ...plan, products: plan.products.slice(0, products) };
  return lineRecord(fewer, marks(rows.map((row) => row.slice(0, products))));
};

describe("a line scale in words", () => {
  test("two products: which is higher, by how much, with the interval and the agreed step", () => {
    const found = words(analyse(line(juicinessMarks, 2), "1"));
    expect(found.verdict).toMatch(
      /^This panel marked “new” higher than “current” in “Juiciness”, 10 seconds after the first bite: by 11\.9 points, p\u00a0=\u00a00\.00\d\d, and the risk locked beforehand is 5\u00a0%\.$/,
    );
    expect(found.size).toMatch(
      /^The difference is estimated at 11\.9 points; .* \d\.\d to \d\d\.\d, 95\u00a0% interval\.$/,
    );
    expect(found.agreed).toContain("“Taste for juiciness next.”");
    expect(found.attributes[0]?.contrasts?.columns).not.toContain("p, adjusted (Holm)");
  });
  test("the other way round: the current one is higher, by as much and within the same ends", () => {
    const backwards = juicinessMarks.map(([current = 0, newer = 0]) => [newer, current]);
    const [one, other] = [words(analyse(line(juicinessMarks, 2), "1")), words(analyse(line(backwards, 2), "1"))];
    expect(other.verdict).toMatch(/^This panel marked “current” higher than “new” .* by 11\.9 points/);
    expect(other.size).toBe(one.size);
    expect(other.attributes[0]?.contrasts?.rows[0]?.[1]).toBe("−11.9");
  });
  test("three products: told apart by F, then the pairs that stand out, the clearest with its interval", () => {
    const found = words(analyse(line(juicinessMarks), "1"));
    // F(2, 22) = 10.5, p = 0.0006, new less current 11.9 (5.3 to 18.5): the kitchen's invented study, computed outside
    expect(found.verdict).toContain("F(2, 22) is 10.47, p\u00a0=\u00a00.0006");
    expect(found.verdict).toContain("these stand out: “new” over “current” and “new, rested” over “current”.");
    expect(found.attributes[0]?.contrasts?.rows[0]?.slice(0, 3)).toEqual([
      "“new” less “current”",
      "11.9",
      "5.3 to 18.5",
    ]);
    expect(found.attributes[0]?.contrasts?.rows[2]?.slice(0, 3)).toEqual([
      "“new, rested” less “new”",
      "1.4",
      "−5.2 to 8.1",
    ]);
    expect(found.attributes[0]?.ends).toBe(
      "0 is “not at all juicy”, 100 is “extremely juicy”; the line was to be 120 mm long.",
    );
  });
  test("not reached: both ends of what the answers allow, and the widest difference not ruled out", () => {
    const rows = juicinessMarks.map(([one = 0], at) => [one, one + (at % 2 === 0 ? 3 : -2.5) + (at % 3)]);
    const found = words(analyse(line(rows, 2), "1"));
    expect(found.verdict).toContain("did not show that “current” and “new” differ");
    expect(found.verdict).toContain("It does not show that they do not.");
    expect(found.size).toMatch(/anything from −\d\.\d to \d\.\d/);
    expect(found.caveats.join(" ")).toMatch(/do not rule out differences of up to \d/);
    expect(found.agreed).toContain("“Ask about cost only.”");
  });
  test("F not reached, though a pair would stand out: both are said, and which of the two is the rule", () => {
    // made up for this: six products, of which the first and the last lie apart and four blur that
    const values = [
      [56, 36, 61, 57, 64, 52],
      [25, 49, 43, 51, 31, 68],
      [28, 31, 33, 51, 52, 54],
      [56, 59, 31, 50, 65, 75],
      [28, 51, 62, 42, 45, 53],
      [60, 61, 64, 64, 47, 48],
      [55, 36, 66, 49, 38, 55],
      [49, 33, 62, 55, 38, 49],
      [24, 69, 52, 31, 55, 63],
      [37, 68, 52, 31, 41, 45],
      [54, 57, 41, 56, 63, 74],
      [55, 69, 68, 65, 62, 71],
    ];
    const rows = values.flatMap((own, person) =>
      own.map((value, product) => ({
        panelist: `p${person}`,
        product: "abcdef"[product] ?? "",
        repeat: "1",
        attribute: "",
        moment: "",
        value,
      })),
    );
    const found = words(resultOfScaleRows(0.05, rows, "1"));
    expect(found.verdict).toContain("did not show");
    expect(found.verdict).toContain("“f” over “a” would stand out; the rule is the test of all products together.");
  });
  test.each<[string, (readonly (number | null)[])[], RegExp]>([
    [
      "nobody marked one product",
      juicinessMarks.map(([a = 0, b = 0]) => [a, b, null]),
      /^There is no verdict: nobody marked “new, rested”/,
    ],
    ["one panelist", juicinessMarks.slice(0, 1).map((row) => [...row]), /^There is no verdict: fewer than two people/],
    [
      "all marks equal",
      juicinessMarks.map(() => [50, 50, 50]),
      /^There is no verdict: every mark of a person is equal/,
    ],
    ["all equally far apart", juicinessMarks.map((_, at) => [at, at + 5, at + 9]), /equally far apart/],
    ["five people", juicinessMarks.slice(0, 5).map((row) => [...row]), /too few people for a verdict: 5 marked/],
    ["nobody", [], /^No mark was counted, so there is no result\.$/],
  ])("%s: a sentence of its own", (_, rows, sentence) => {
    const found = words(analyse(line(rows), "1"));
    expect(found.verdict).toMatch(sentence);
    clean(found);
  });
  test("a missing mark: the table has a mean for everybody, and the panelist is named", () => {
    const rows = juicinessMarks.map((row, at) => (at === 3 ? [null, row[1] ?? 0, row[2] ?? 0] : row));
    const found = words(analyse(line(rows), "1"));
    expect(found.attributes[0]?.means?.columns).toContain("Mean, had everybody marked all");
    expect(found.caveats.join(" ")).toContain("seat 4 did not mark every product");
    clean(found);
  });
  test("further properties are told to be beside the question, with no verdict", () => {
    const plan = linePlan();
    const [juicy] = plan.scale.attributes;
    if (!juicy) throw new Error("the scenario has an attribute");
    const attributes = [juicy, { ...juicy, id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b05", name: "Saltiness" }];
    const record = lineRecord(
      { ...plan, scale: { ...plan.scale, attributes } },
      juicinessMarks.map((row): Marks => [[...row], [...row].reverse()]),
    );
    const found = words(analyse(record, "1"));
    expect(found.attributes.map(({ beside }) => beside)).toEqual(["", report.scale.beside]);
    expect(found.attributes[1]?.finding).not.toMatch(/This panel/);
    expect(found.caveats.join(" ")).toContain("looked at beside it");
    clean(found);
  });
  test("a key in doubt: numbers, no verdict and no finding", () => {
    const found = words(analyse({ ...line(juicinessMarks), keyMatches: false }, "1"));
    expect(found.verdict).toMatch(/^No verdict: the opened key does not match the seal/);
    expect([found.meaning, found.caution]).toEqual(["", ""]);
    for (const text of texts(found)) expect(text).not.toMatch(/[Tt]his panel marked|higher than|calls for\.$/);
  });
  test("values on a scale of nine get two decimals, with a true minus", () => {
    const rows = juicinessMarks.flatMap((row, panelist): ScaleRow[] =>
      row.map((value, product) => ({
        panelist: String(panelist),
        product: ["x", "y", "z"][product] ?? "",
        repeat: "1",
        attribute: "",
        moment: "",
        value: Math.round(value / 11),
      })),
    );
    const found = words(resultOfScaleRows(0.05, rows, "1"));
    expect(found.attributes[0]?.means?.rows[0]?.[2]).toMatch(/^\d\.\d\d$/);
    expect(found.verdict).toContain("in the property judged");
    clean(found);
  });
  test("any marks: no banned word", () => {
    const mark = fc.option(fc.integer({ min: 0, max: 10 }), { freq: 5 });
    fc.assert(
      fc.property(fc.array(fc.tuple(mark, mark, mark), { maxLength: 12 }), (rows) =>
        clean(words(analyse(line(rows), "1"))),
      ),
      { numRuns: 60 },
    );
  });
});

describe("the panel's use of the scale", () => {
  const partOf = (result: Result) => words(result).parts.find(({ id }) => id === "panel");

  test("with repeats: who told apart by their own, whose order runs against the others', whose repeats lie far apart", () => {
    // three steady people, and one who turns the line round and is unsteady
    const given: Record<string, readonly number[]> = {
      a: [20, 22, 50, 52, 80, 82],
      b: [30, 31, 55, 56, 70, 71],
      c: [10, 14, 40, 44, 90, 94],
      d: [80, 40, 60, 30, 50, 10],
    };
    const rows = Object.entries(given).flatMap(([panelist, values]) =>
      values.map((value, at): ScaleRow => {
        const product = ["p", "q", "r"][Math.floor(at / 2)] ?? "";
        return { panelist, product, repeat: String((at % 2) + 1), attribute: "", moment: "", value };
      }),
    );
    const found = partOf(resultOfScaleRows(0.05, rows, "1"));
    expect(found?.sentences[1]).toMatch(/: a, b and c\.$/);
    expect(found?.sentences[2]).toContain("The marks of d run against the others’");
    expect(found?.sentences[3]).toMatch(/more than twice that: d\.$/);
    expect(found?.table.rows.map(([panelist]) => panelist)).toEqual(["a", "b", "c", "d"]);
  });

  test("one person, or a key that does not match, gives no list", () => {
    expect(partOf(resultOfScaleRows(0.05, [], "1"))).toBeUndefined();
    expect(partOf(analyse({ ...line(juicinessMarks), keyMatches: false }, "1"))).toBeUndefined();
  });
});
