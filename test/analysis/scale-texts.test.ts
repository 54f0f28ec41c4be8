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

describe("just right, beside a liking", () => {
  const head = "panelist,product,repeat,attribute,value,scale";
  /** Product A: from everybody a step of three, and a liking of nine. */
  const rated = (answers: readonly (readonly [step: number, liking: number])[], repeat = 1) =>
    answers.flatMap(([step, liking], at) => [
      `p${at},A,${repeat},Liking,${liking},liking 9`,
      `p${at},A,${repeat},Salt,${step},just-right 3`,
    ]);
  const others = [
    "p0,B,1,Liking,5,liking 9",
    "p0,B,1,Salt,2,just-right 3",
    "p1,B,1,Liking,6,liking 9",
    "p1,B,1,Salt,2,just-right 3",
  ];
  const answers = [
    [1, 5],
    [1, 7],
    [2, 5],
    [2, 7],
    [3, 2],
    [3, 4],
  ] as const;
  const partOf = (found: ReturnType<typeof said>) => {
    const part = found.parts.find(({ id }) => id === "right-2");
    if (!part) throw new Error("no part");
    return part;
  };

  test("means that are one: how far they lie apart, not that people liked it as well", () => {
    const [sentence] = partOf(said([head, ...rated(answers), ...others])).sentences;
    expect(sentence).toContain(
      "“too little”; their mean liking lies within 0.05 steps of that of those to whom it was just right (",
    );
    expect(sentence).toMatch(/“too much”; their mean liking is 3\.0 steps below that of those/);
    expect(sentence).not.toContain("as well as");
  });
  test("no spread, no interval, and that is said", () => {
    const flat = answers.map(([step]) => [step, step === 2 ? 7 : 5] as const);
    const [sentence] = partOf(said([head, ...rated(flat), ...others])).sentences;
    expect(sentence).toContain("2.0 steps below that of those to whom it was just right (there is no interval)");
  });
  test("nobody is asked how they use a scale of liking: taste is no skill", () => {
    const lines = [head, ...rated(answers), ...others];
    const asked = (text: string) => said(lines.map((line) => line.replace("liking 9", text))).parts.map(({ id }) => id);
    expect(asked("liking 9")).not.toContain("panel");
    expect(asked("steps 9")).toContain("panel");
  });
  test("several intervals: each speaks for itself, which is said with their number", () => {
    const { note } = partOf(said([head, ...rated(answers), ...others])).table;
    expect(note).toContain("Each of the 2 intervals speaks of its own drop alone");
  });
  test("repeats: no intervals, and neither note nor heads promise any", () => {
    const found = said([head, ...rated(answers), ...rated(answers, 2), ...others]);
    const { table, sentences } = partOf(found);
    expect(sentences.join(" ")).toContain("so there are no intervals");
    expect([...table.columns, table.note].join(" ")).not.toMatch(/interval|Welch|different people/);
    expect(table.note).toContain("no promise");
  });
  test("a just-right scale is no further property with a p; alone with repeats there is no test that knows of people", () => {
    const beside = said([head, ...rated(answers), ...others]);
    expect(beside.caveats.join(" ")).not.toContain("small p");
    const alone = [head, ...rated(answers), ...rated(answers, 2), ...others].filter((line) => !line.includes("Liking"));
    const { caveats, rows } = said(alone);
    expect(rows.find(({ id }) => id === "judgments")?.behind).not.toContain("averaged");
    expect(caveats).toContain("14 marks came from 6 people. Further marks are no further people.");
  });
});

test("steps without a name: the sentence on their distance has a subject", () => {
  const lines = tenths.flatMap((_, at) => [`p${at},A,${(at % 4) + 1},steps 5`, `p${at},B,${(at % 3) + 3},steps 5`]);
  const { caveats } = said(["panelist,product,value,scale", ...lines]);
  expect(caveats.filter((text) => text.startsWith("Means take the steps of the scale"))).toHaveLength(1);
});
