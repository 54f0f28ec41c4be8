import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyseScale, resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { markValue } from "../../src/analysis/steps.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import type { Attribute, ScaleForm } from "../../src/model/attribute.ts";
import type { Plan } from "../../src/model/plan.ts";
import { result as schema } from "../../src/model/result.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan } from "../design/scenario.ts";
import { reference, relativeError } from "./reference.ts";
import { lineRecord } from "./study-records.ts";
import { clean, texts } from "./texts.ts";

const numbers = z.array(z.number());
const set = z.object({
  products: z.array(z.string()),
  counts: z.array(numbers),
  means: numbers,
  test: numbers,
  pairs: z.array(z.object({ name: z.string(), figures: numbers })),
  friedman: numbers,
});
const byR = reference("steps-by-r", z.object({ sets: z.object({ ham: set, carrots: set }) })).sets;
const textOf = (folder: string) =>
  readFileSync(new URL(`../reference/${folder}/data.csv`, import.meta.url), "utf8").trim();
const resultOf = (text: string) => {
  const found = resultOfScaleRows(0.05, readScale(text, "steps.csv").answers, "1");
  expect(z.safeParse(schema, found).error).toBeUndefined();
  return found;
};
const far = (got: number | undefined, truth: number | undefined) =>
  relativeError(got ?? Number.NaN, truth ?? Number.NaN);

describe("liking in steps: the hams (nine steps) and carrots (seven) of R's lmerTest; test/reference/steps-by-r", () => {
  const lines = textOf("steps-by-r").split("\n");
  test.each(["ham", "carrots"] as const)(
    "%s: counts of steps, means, F, pairs after Tukey, Friedman with ties",
    (name) => {
      const truth = byR[name];
      const found = resultOf([lines[0], ...lines.filter((line) => line.includes(`,${name},`))].join("\n"));
      const [attribute] = found.attributes;
      expect(found.products).toEqual(truth.products);
      expect(attribute?.form).toMatchObject({ kind: "steps", liking: true });
      expect(attribute?.distribution?.map(({ counts }) => counts)).toEqual(truth.counts);
      attribute?.means.forEach(({ estimate }, at) => {
        expect(far(estimate ?? undefined, truth.means[at])).toBeLessThan(1e-13);
      });
      const { fValue, numeratorDf, denominatorDf, pValue } = attribute?.blocks ?? {};
      [fValue, numeratorDf, denominatorDf, pValue].forEach((value, at) => {
        expect(far(value, truth.test[at]), `test ${at}`).toBeLessThan(1e-11);
      });
      for (const { first, second, difference, lowTogether, highTogether, pValueAdjusted } of attribute?.contrasts ??
        []) {
        const figures = truth.pairs.find((pair) => pair.name === `${first} - ${second}`)?.figures;
        // R's own studentized range is good to about 1e-7
        [difference, lowTogether, highTogether, pValueAdjusted].forEach((value, at) => {
          expect(Math.abs(value - (figures?.[at] ?? Number.NaN)), `${first} ${second} ${at}`).toBeLessThan(1e-6);
        });
      }
      expect(attribute?.contrasts).toHaveLength(truth.pairs.length);
      const { chiSquare, df, pValue: byRanks, exact } = attribute?.ranks ?? {};
      // with three products the p-value is counted out, and no chi-square as in R
      [chiSquare, df, ...(exact ? [] : [byRanks])].forEach((value, at) => {
        expect(far(value, truth.friedman[at]), `friedman ${at}`).toBeLessThan(1e-11);
      });
      expect(exact).toBe(truth.products.length === 3);
    },
  );
});

/** Moistness on five steps, 3 just right, with the liking of the same 40 people. */
const withLiking = (): string => {
  const rows = textOf("just-right-by-r").split("\n").slice(1);
  const labels = ["much too dry", "too dry", "just right", "too moist", "much too moist"];
  return [
    "panelist,product,attribute,scale,value,label",
    ...rows.flatMap((row) => {
      const [panelist, product, step, liking = ""] = row.split(",");
      return [
        `${panelist},${product},Overall liking,liking 9,${liking},`,
        `${panelist},${product},Moistness,just-right 5,${step},${labels[Number(step) - 1]}`,
      ];
    }),
  ].join("\n");
};
const product = z.object({ counts: numbers, shares: z.array(numbers), little: numbers, much: numbers });
const justRightByR = reference("just-right-by-r", z.object({ current: product, new: product }));

describe("just right beside liking, from the file on; test/reference/just-right-by-r", () => {
  const found = resultOf(withLiking());
  const [liking, moistness] = found.attributes;
  const said = describeResult(found, report);

  test("counts, shares and drops as binom.test and t.test of R have them", () => {
    expect(moistness?.justRight).toMatchObject({ liking: 0, repeated: false });
    for (const { product: name, counts, shares, drops } of moistness?.justRight?.products ?? []) {
      const truth = name === "new" ? justRightByR.new : justRightByR.current;
      expect(counts).toEqual(truth.counts);
      const ends = [shares.little, shares.right, shares.much].map(({ estimate, low, high }) => [estimate, low, high]);
      ends.flat().forEach((value, at) => {
        expect(far(value ?? undefined, truth.shares.flat()[at])).toBeLessThan(1e-12);
      });
      for (const side of ["little", "much"] as const) {
        const { meanRight, meanSide, drop, test: welch } = drops[side];
        const got = [meanRight, meanSide, drop, welch?.low, welch?.high, welch?.df, welch?.pValue];
        got.forEach((value, at) => {
          expect(far(value ?? undefined, truth[side][at]), `${name} ${side} ${at}`).toBeLessThan(1e-10);
        });
      }
    }
  });

  test("the middle is the goal: no F test, no means, no pairs; the liking has them", () => {
    expect(moistness).toMatchObject({ outcome: "just-right", blocks: null, mixed: null, means: [], contrasts: [] });
    expect(liking?.outcome).toBe("ok");
  });

  test("sentences first: how many on each side, the drop with its interval, and no promise", () => {
    const part = said.parts.find(({ id }) => id === "right-2");
    const [little = 0, right = 0, much = 0] = justRightByR.current.shares.map(([share = 0]) => share * 40);
    const of = ([, , drop = 0, low = 0, high = 0]: readonly number[]) =>
      `their mean liking is ${drop.toFixed(1)} steps below that of those to whom it was just right (${low.toFixed(1)} to ${high.toFixed(1)}, 95\u00a0% interval)`;
    expect(part?.heading).toBe("Just right: Moistness");
    expect(part?.sentences[0]).toBe(
      `“current” was just right to ${right} of 40. ${little} of 40 said “too dry” or more so; ${of(justRightByR.current.little)}. ${much} of 40 said “too moist” or more so; ${of(justRightByR.current.much)}.`,
    );
    expect(part?.table.note).toContain("no promise");
    expect(said.attributes.map(({ apart }) => apart)).toEqual([false, true]);
  });

  test("nothing that is said holds a hole, and nobody speaks of points", () => {
    clean(said);
    const tables = [
      ...said.parts.map(({ table }) => table),
      ...said.attributes.flatMap((one) => one.distribution ?? []),
    ];
    const further = [
      ...said.parts.flatMap(({ heading, sentences }) => [heading, ...sentences]),
      ...tables.flatMap(({ caption, columns, rows, note }) => [caption, ...columns, ...rows.flat(), note]),
    ];
    for (const text of [...texts(said), ...further]) expect(text).not.toMatch(/\bpoints\b|undefined|NaN|null/);
  });
});

test("a just-right scale alone has no verdict and says to how many it was just right", () => {
  const lines = withLiking().split("\n");
  const alone = [lines[0], ...lines.filter((line) => line.includes("Moistness"))].join("\n");
  const said = describeResult(resultOf(alone), report);
  const [of] = [justRightByR.new.counts[2]];
  expect(said.verdict).toContain(`${of} of 40 for “new”`);
  expect(said.parts[0]?.sentences.join(" ")).toContain("liking was not asked");
  expect(said.parts[0]?.table.columns).toHaveLength(3);
});

const liking: ScaleForm = { kind: "steps", labels: ["not at all", "", "very much"], liking: true };
const rated = (form: ScaleForm, changes: Partial<Plan> = {}) => {
  const plan = linePlan();
  const [first] = plan.scale.attributes as [Attribute];
  const attributes = [{ ...first, name: "Overall liking", form }];
  const rows = Array.from({ length: 12 }, (_, at) => [[0, at % 2 === 0 ? 0.5 : 1, at % 3 === 0 ? 0.5 : 1]]);
  const record = lineRecord(
    { ...plan, ...changes, scale: { ...plan.scale, attributes } },
    rows.map((row) => row.map((own) => own.map((place) => place * 100))),
  );
  return analyseScale(record, "1");
};

describe("steps of a study", () => {
  test("a kept place is its step: 0.375 of nine is the fourth; a place between steps is none", () => {
    const nine: ScaleForm = { kind: "steps", labels: new Array(9).fill(""), liking: false };
    expect([0, 0.375, 1].map((fraction) => markValue({ fraction }, nine))).toEqual([1, 4, 9]);
    expect(markValue({ fraction: 0.4 }, nine)).toBeNull();
    expect(markValue({ fraction: 0.4 }, { kind: "line" })).toBe(40);
    expect(markValue(null, nine)).toBeNull();
  });
  test("places become steps, counted by product; ends are the first and the last label", () => {
    const [attribute] = rated(liking).attributes;
    expect(attribute?.distribution?.map(({ counts }) => counts)).toEqual([
      [12, 0, 0],
      [0, 6, 6],
      [0, 4, 8],
    ]);
    expect(attribute).toMatchObject({ lowAnchor: "not at all", highAnchor: "very much" });
  });
  test("liking of a panel that was not recruited for it is no forecast of customers; other steps say nothing of liking", () => {
    const warned = (form: ScaleForm, changes: Partial<Plan> = {}) =>
      rated(form, changes).caveats.some(({ what }) => what === "panel-not-customers");
    expect(warned(liking)).toBe(true);
    expect(warned(liking, { panelType: "consumers" })).toBe(false);
    expect(warned({ ...liking, liking: false })).toBe(false);
  });
});
