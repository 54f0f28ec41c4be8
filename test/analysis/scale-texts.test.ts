import { describe, expect, test } from "vitest";
import { resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import { report } from "../../src/words/en/report.ts";
import { clean } from "./texts.ts";

// What is said of odd tables of marks, each made up so that what must be said of it is known without computing.

const resultOf = (lines: readonly string[]) =>
  resultOfScaleRows(0.05, readScale(lines.join("\n"), "marks.csv").answers, "1");
const said = (lines: readonly string[]) => describeResult(resultOf(lines), report);
const rowOf = (found: ReturnType<typeof said>, id: string) => found.rows.find((row) => row.id === id);

/** Tenths, which no double holds; either product gets each of them once, so that their means are one number. */
const tenths = [0.1, 0.2, 0.3, 0.7, 0.9, 1.1, 1.3];
const mirrored = [
  "panelist,product,value",
  ...tenths.flatMap((value, at) => [`p${at},A,${value}`, `p${at},B,${tenths.at(-1 - at)}`]),
];

describe("means that are one number but for rounding", () => {
  test.each<[string, string[], "blocks" | "mixed"]>([
    ["nothing missing", mirrored, "blocks"],
    // who marked one product alone has a counterpart who gave the other one the same mark
    ["marks missing", [...mirrored, "one,A,0.6", "other,B,0.6"], "mixed"],
  ])("%s: the difference is 0, F is 0, p is 1", (_, lines, leads) => {
    const [attribute] = resultOf(lines).attributes;
    expect(attribute?.leads).toBe(leads);
    expect(attribute?.contrasts[0]).toMatchObject({ difference: 0, pValue: 1, pValueAdjusted: 1 });
    expect(attribute?.contrasts[0]?.low).toBe(0 - (attribute?.contrasts[0]?.high ?? 0));
    expect(leads === "mixed" ? attribute?.mixed : attribute?.blocks).toMatchObject({ fValue: 0, pValue: 1 });
    const found = said(lines);
    expect(found.attributes[0]?.finding).toMatch(/^The means lie 0\.00 points apart/);
    clean(found);
  });
});

describe("why marks are uneven, and what the mixed model makes of it", () => {
  const values = [51, 58, 44, 49, 62, 71, 38, 47, 55, 60, 40, 52, 66, 63];
  /** Seven people, A and B once each. */
  const once = values.map((value, at) => `p${Math.floor(at / 2)},${at % 2 === 0 ? "A" : "B"},1,${value}`);
  const head = "panelist,product,repeat,value";

  test("unequal repeats alone: nobody left a product out, and no mark is called missing", () => {
    const found = said([head, ...once, "p1,A,2,47", "p4,B,2,63"]);
    expect(found.attributes[0]?.lead).toContain("the classical test averages a person’s repeats first");
    expect(found.attributes[0]?.lead).not.toContain("some of the products");
    expect(rowOf(found, "error")?.behind).toMatch(/^repeats are not equally many;/);
    clean(found);
  });
  test("marks missing alone: repeats are no reason", () => {
    const found = said([head, ...once.slice(1)]);
    expect(found.attributes[0]?.lead).toContain("people who marked some of the products");
    expect(found.attributes[0]?.lead).not.toContain("repeats");
    expect(rowOf(found, "error")?.behind).toMatch(/^marks are missing;/);
  });
  test("both: both are named", () => {
    const found = said([head, ...once.slice(1), "p4,B,2,63"]);
    expect(found.attributes[0]?.lead).toMatch(/some of the products .* counts too.*; every mark counts by itself/);
    expect(rowOf(found, "error")?.behind).toMatch(/^marks are missing, repeats are not equally many;/);
  });
  test("place and session as terms are named as reasons; a term that had to be left out is named with its why", () => {
    const served = values.map((value, at) => {
      const person = Math.floor(at / 2);
      const place = ((at + person) % 2) + 1;
      return `p${person},${at % 2 === 0 ? "A" : "B"},${value + 3 * place},${place},day ${(person % 2) + 1}`;
    });
    const columns = "panelist,product,value,position,session";
    const found = said([columns, ...served.slice(1)]);
    expect(found.attributes[0]?.lead).toContain("the session and the place on the tray are terms of it");
    const unknown = said([
      columns,
      ...served.slice(1).map((line, at) => (at === 3 ? line.replace(/day \d/, "") : line)),
    ]);
    expect(unknown.attributes[0]?.lead).toContain("the place on the tray is a term of it");
    expect(unknown.attributes[0]?.lead).toContain("Left out of it is the session: it is not known for every mark.");
  });
});
