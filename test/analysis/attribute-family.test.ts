import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as say } from "../../src/analysis/describe.ts";
import { type ScaleInput, scaleStatistics } from "../../src/analysis/scale.ts";
import type { ScaleResult } from "../../src/model/result.ts";
import { stripFigure } from "../../src/report/strip-figures.tsx";
import { report } from "../../src/words/en/report.ts";
import { reference, relativeError } from "./reference.ts";

const attribute = z.strictObject({
  inFamily: z.boolean(),
  marks: z.array(z.array(z.number())).check(z.minLength(9)),
  p: z.number(),
  holm: z.nullable(z.number()),
  contrasts: z.array(z.array(z.number()).check(z.length(4))).check(z.minLength(1)),
});
const cases = reference(
  "attribute-family-by-r",
  z.strictObject({ madeBy: z.string(), two: z.array(attribute), three: z.array(attribute) }),
);
type Case = z.infer<typeof attribute>[];

function inputOf(attributes: Case, families = attributes.map(({ inFamily }) => inFamily)): ScaleInput {
  const products = (attributes[0]?.marks[0] ?? []).map((_, at) => ({ id: `p${at}`, name: `p${at}` }));
  return {
    ...{ alpha: 0.05, products, curves: [], comparisons: { kind: "all-pairs" }, perTray: null, keyMatches: true },
    scale: { low: 0, high: 100, lengthMm: 120 },
    terms: [],
    attributes: attributes.map((_, at) => ({
      ...{ attribute: `property ${at + 1}`, moment: null, momentText: "", lowAnchor: "", highAnchor: "" },
      inFamily: families[at] ?? false,
    })),
    values: attributes.flatMap(({ marks }, at) =>
      marks.flatMap((row, seat) =>
        row.map((value, product) => ({
          ...{ attribute: at, panelist: `seat ${seat + 1}`, product: `p${product}`, value },
          ...{ place: null, session: "", batch: "", chew: `${seat} ${product}` },
        })),
      ),
    ),
  };
}

function same(attributes: Case, precise: number): void {
  const found = scaleStatistics(inputOf(attributes)).attributes;
  attributes.forEach(({ p, holm, contrasts }, at) => {
    const own = found[at];
    expect(relativeError(own?.blocks?.pValue ?? 0, p)).toBeLessThan(1e-9);
    if (holm === null) expect(own?.pValueAdjusted).toBeNull();
    else expect(relativeError(own?.pValueAdjusted ?? 0, holm)).toBeLessThan(1e-9);
    expect(own?.contrasts.length).toBe(contrasts.length);
    // R takes the pairs of a column: p1 p0, p2 p0, p2 p1
    const sorted = own?.contrasts.toSorted((one, other) =>
      `${one.first}${one.second}` < `${other.first}${other.second}` ? -1 : 1,
    );
    contrasts.forEach((values, pair) => {
      const one = sorted?.[pair];
      const got = [one?.difference, one?.lowTogether, one?.highTogether, one?.pValueAdjusted];
      values.forEach((value, place) => {
        expect(Math.abs((got[place] ?? Number.NaN) - value), `${at} ${pair} ${place}`).toBeLessThan(precise);
      });
    });
  });
}

describe("several properties of one panel", () => {
  test("two products: p after Holm, intervals at the risk its steps left, the exploratory one by itself; R 4.2.2, aov, p.adjust, qt", () => {
    same(cases.two, 1e-9);
  });
  test("three products: pairs by the studentized range at an even share of the risk, p times the family; R 4.2.2, TukeyHSD", () => {
    same(cases.three, 2e-6);
  });
  test("the verdict stands on the adjusted p: p below 0.05 by itself, above it among three", () => {
    const [first] = cases.two;
    expect(first?.p).toBeLessThan(0.05);
    expect(first?.holm).toBeGreaterThan(0.05);
    expect(scaleStatistics(inputOf(cases.two)).outcome).toBe("not-reached");
    // nothing else was named to count: the risk is the first one's alone
    expect(scaleStatistics(inputOf(cases.two, [true, false, false, false])).outcome).toBe("reached");
  });
  test("an interval of two products excludes 0 exactly where the adjusted p is within the risk", () => {
    const { attributes, alpha } = scaleStatistics(inputOf(cases.two));
    for (const { pValueAdjusted, contrasts } of attributes.slice(0, 3)) {
      const [only] = contrasts;
      const excludes = (only?.lowTogether ?? 0) > 0 || (only?.highTogether ?? 0) < 0;
      expect(excludes).toBe((pValueAdjusted ?? 1) <= alpha);
    }
  });
  test("a property that counts and was never marked is still paid for: the others' p are adjusted for it", () => {
    const [first, second] = cases.two;
    if (!first || !second) throw new Error("no cases");
    const silent = { ...second, marks: second.marks.map(() => []) };
    const [found, none] = scaleStatistics(inputOf([first, silent])).attributes;
    expect(none).toMatchObject({ outcome: "no-marks", pValueAdjusted: null });
    expect(relativeError(found?.pValueAdjusted ?? 0, 2 * first.p)).toBeLessThan(1e-9);
  });
});

describe("what is said of them", () => {
  const resultOf = (attributes: Case): ScaleResult => ({
    ...resultOfScaleRows(0.05, [], "1"),
    ...scaleStatistics(inputOf(attributes)),
  });
  const rowOf = (attributes: Case, at: number) => {
    const part = say(resultOf(attributes), report).parts.find(({ id }) => id === "strip-1");
    return part?.table.rows[at] ?? [];
  };

  test("each property has its row in the strip, an exploratory one without a verdict however small its p", () => {
    expect(rowOf(cases.two, 1).at(-1)).toBe("shown");
    expect(rowOf(cases.two, 0).at(-1)).toBe("not shown");
    expect(rowOf(cases.two, 3).at(-1)).toBe("exploratory");
  });
  test("a pair is judged only where its property differs as a whole", () => {
    expect(rowOf(cases.three, 0).at(-1)).toBe("shown");
    expect(rowOf(cases.three, 3).at(-1)).toBe("not judged");
    expect(rowOf(cases.three, 6).at(-1)).toBe("exploratory");
  });
  test("the verdict names both p, and one property alone has no strip", () => {
    const first = cases.two[0];
    if (!first) throw new Error("no case");
    expect(say(resultOf(cases.two), report).verdict).toContain("among the 3 properties that count (Holm)");
    expect(say(resultOf([first]), report).parts.map(({ id }) => id)).not.toContain("strip-1");
  });
  test("intervals after Holm are not sold as holding together: they go with their adjusted p", () => {
    const { parts, attributes, size } = say(resultOf(cases.two), report);
    const strip = parts.find(({ id }) => id === "strip-1");
    expect(strip?.sentences.join(" ")).toContain("leaves out 0 just when its adjusted p is at most 5\u00a0%");
    expect(strip?.table.columns[2]).toBe("Interval, after Holm");
    expect(attributes[0]?.contrasts?.columns).toContain("Interval, after Holm");
    expect(attributes[0]?.contrasts?.note).toContain("leaves out 0 just when");
    expect(size).toContain("interval after Holm, which goes with the adjusted p");
    // the exploratory one stands by itself
    expect(attributes[3]?.finding).toContain("95\u00a0% interval;");
    for (const text of [...(strip?.table.columns ?? []), ...(strip?.sentences ?? [])])
      expect(text).not.toMatch(/together/);
    expect(say(resultOf(cases.three), report).parts[0]?.table.columns[2]).toBe("95\u00a0% interval, together");
  });
  test("the strip's caption names the analysis that its differences are of, and what its intervals are", () => {
    const captionOf = (result: ScaleResult) => stripFigure(result, say(result, report), "strip-1")?.caption(660) ?? "";
    const whole = inputOf(cases.two);
    const within = captionOf(resultOf(cases.two));
    expect(within).toMatch(/^Of every property the mean difference within panelists in points/);
    expect(within).toContain("interval, after Holm where the property counts");
    expect(within).not.toContain("mixed model");
    // one mark of the second property is missing, so the mixed model leads it
    const values = whole.values.filter(({ attribute, chew }) => attribute !== 1 || chew !== "0 1");
    const gap = { ...resultOf(cases.two), ...scaleStatistics({ ...whole, values }) };
    expect(gap.attributes.map(({ leads }) => leads)).toContain("mixed");
    expect(captionOf(gap)).toContain("within panelists, or where marks are uneven the difference by the mixed model,");
    const [first] = cases.three;
    if (!first) throw new Error("no case");
    expect(captionOf(resultOf([first, { ...first, inFamily: false }]))).toContain("its 95\u00a0% interval;");
  });
});
