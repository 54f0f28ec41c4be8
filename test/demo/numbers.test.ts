import { beforeAll, describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { recordOf } from "../../src/log/record.ts";
import type { ChoiceResult, PairResult, PortionsResult, RankResult, ScaleResult } from "../../src/model/result.ts";
import { checksCommitment } from "../../src/seal/verify.ts";
import { massByR } from "../analysis/mass-reference.ts";
import { relativeError } from "../analysis/reference.ts";
import chewByR from "../reference/chew-curve-by-r/values.json" with { type: "json" };
import byR from "../reference/demo-by-r/values.json" with { type: "json" };
import rankingByR from "../reference/friedman-by-r/values.json" with { type: "json" };
import { type Told, told } from "./written.ts";

/**
 * The demo's numbers, by the real analysis of the real record. "As printed" are the rounded numbers of the invented
 * scenario, computed with other programs when it was thought up; the full ones are base R's (test/reference/demo-by-r).
 * Intervals that the scenario prints are two-sided at 95 %; the main ones of a report go with its test.
 */
let studies: Told[];
// sealing every key takes its time by design
beforeAll(async () => {
  studies = await told();
}, 60_000);

function resultOf(at: number) {
  const { state } = studies[at] ?? {};
  if (!state?.lock || !state.reveal) throw new Error("this study of the demo is not opened");
  const keyMatches = checksCommitment(state.reveal.body.opened, state.lock.body.sealed.commitment);
  return analyse(recordOf(state, { keyMatches }), "test");
}

/** Doubles of two programs that add up in another order. */
const close = (got: number | null | undefined, truth: number | undefined) =>
  expect(relativeError(got ?? Number.NaN, truth ?? Number.NaN)).toBeLessThan(1e-12);

test("the triangle: 14 of 24, needs 13, p = 0.0103, pd 0.375 (0.05 to 0.67), d-prime 1.89 as printed; p by R", () => {
  const result = resultOf(0) as ChoiceResult;
  const { correct, judgments, people, criticalNumber, outcome, correctShare } = result;
  expect({ correct, judgments, people, criticalNumber, outcome }).toEqual({
    correct: 14,
    judgments: 24,
    people: 24,
    criticalNumber: byR.triangle.needed,
    outcome: "reached",
  });
  close(result.pValue, byR.triangle.pValue);
  close(correctShare.low, byR.triangle.correctShare[0]);
  close(correctShare.high, byR.triangle.correctShare[1]);
  expect(result.pValue.toFixed(4)).toBe("0.0103");
  expect(result.discriminatorShare.estimate?.toFixed(3)).toBe("0.375");
  expect(result.dPrime.estimate?.toFixed(2)).toBe("1.89");
  // the two-sided 95 % interval of the share who can tell is that of the share right, less guessing
  const canTell = (share: number | null) => (((share ?? Number.NaN) - 1 / 3) / (2 / 3)).toFixed(2);
  expect([canTell(correctShare.low), canTell(correctShare.high)]).toEqual(["0.05", "0.67"]);
  expect(result.guesses).toEqual({ ticked: 1, right: 1 });
  expect(result.study?.invented).toBe(true);
});

test("the preference: new 31, current 19, none 10 dropped: p = 0.119, 62 % (47 to 75) as printed; by R", () => {
  const result = resultOf(1) as PairResult;
  const { products, counts, judgments, people, noPreference, secondShare } = result;
  expect({ products, counts, judgments, people, noPreference }).toEqual({
    products: ["current", "new"],
    counts: { first: 19, second: 31, none: 10 },
    judgments: 50,
    people: 60,
    noPreference: "dropped",
  });
  close(result.pValue, byR.preference.pValue);
  for (const [at, value] of [secondShare.estimate, secondShare.low, secondShare.high].entries()) {
    close(value, byR.preference.share[at]);
  }
  expect(result.pValue.toFixed(3)).toBe("0.119");
  const percent = (share: number | null) => Math.round(100 * (share ?? Number.NaN));
  expect([secondShare.estimate, secondShare.low, secondShare.high].map(percent)).toEqual([62, 47, 75]);
});

describe("the line scale", () => {
  const juiciness = () => (resultOf(2) as ScaleResult).attributes[0];

  test("F(2, 22) = 10.5, p = 0.0006 with panelists as blocks and position left out, as printed; by R", () => {
    const blocks = juiciness()?.blocks;
    expect([blocks?.numeratorDf, blocks?.denominatorDf]).toEqual(byR.line.df);
    close(blocks?.fValue, byR.line.fValue);
    close(blocks?.pValue, byR.line.pValue);
    expect(blocks?.fValue.toFixed(1)).toBe("10.5");
    expect(blocks?.pValue.toFixed(4)).toBe("0.0006");
  });

  test.each([
    ["new", "current", byR.line.newOverCurrent, ["11.9", "5.3", "18.5"]],
    ["new + rest", "new", byR.line.restOverNew, ["1.4", "-5.2", "8.1"]],
  ])("%s less %s, unadjusted, two-sided 95 %%, as printed; by R", (first, second, truth, printed) => {
    const found = juiciness()?.contrasts.find((each) => each.first === first && each.second === second);
    const got = [found?.difference, found?.low, found?.high];
    // differences of means lose the digits that the means share
    for (const [at, value] of got.entries()) expect(value).toBeCloseTo(truth[at] ?? Number.NaN, 10);
    expect(got.map((value) => value?.toFixed(1))).toEqual(printed);
  });

  test("twelve panelists marked all three products; nobody is missing", () => {
    expect(juiciness()).toMatchObject({ people: 12, judgments: 36, incomplete: [] });
    expect(juiciness()?.panelists[5]?.values).toEqual([53.7, 47.4, 80.3]);
  });
});

/** The choice tests of which the invented scenario prints the outcome; the tails by base R's binom.test. */
test.each([
  {
    ...{ at: 3, method: "duo-trio", correct: 22, judgments: 36, people: 12, needed: 24, outcome: "not-reached" },
    ...{ p: byR.duoTrio.pValue, printed: "0.121", digits: 3 },
  },
  {
    ...{ at: 4, method: "tetrad", correct: 10, judgments: 18, people: 18, needed: 10, outcome: "reached" },
    ...{ p: byR.tetrad.pValue, printed: "0.0433", digits: 4 },
  },
  {
    ...{ at: 5, method: "paired-difference", correct: 18, judgments: 24, people: 24, needed: 17, outcome: "reached" },
    ...{ p: byR.pairedDifference.pValue, printed: "0.0113", digits: 4 },
  },
  {
    ...{ at: 6, method: "three-alternative", correct: 13, judgments: 24, people: 24, needed: 13, outcome: "reached" },
    ...{ p: byR.threeAlternative.pValue, printed: "0.0284", digits: 4 },
  },
])("$method: $correct of $judgments, needs $needed, p = $printed as printed; p by R", (expected) => {
  const result = resultOf(expected.at) as ChoiceResult;
  const { method, correct, judgments, people, criticalNumber: needed, outcome } = result;
  expect(expected).toMatchObject({ method, correct, judgments, people, needed, outcome });
  close(result.pValue, expected.p);
  expect(result.pValue.toFixed(expected.digits)).toBe(expected.printed);
});

test("the duo-trio: each person's own count, spread chi-square 16.4 on 11, p = 0.13 as printed; by R", () => {
  const result = resultOf(3) as ChoiceResult;
  expect(result.panelists.map(({ correct }) => correct).sort()).toEqual([0, 1, 1, 1, 1, 2, 2, 2, 3, 3, 3, 3]);
  expect(result.panelists.every(({ judgments }) => judgments === 3)).toBe(true);
  close(result.spread?.chiSquare, byR.duoTrio.chiSquare);
  close(result.spread?.pValue, byR.duoTrio.spreadP);
  expect([result.spread?.chiSquare.toFixed(1), result.spread?.df, result.spread?.pValue.toFixed(2)]).toEqual([
    "16.4",
    11,
    "0.13",
  ]);
});

test("distances and shares as printed: tetrad pd 0.33, d-prime 1.21; paired 0.95, 75 % (53 to 90); three-alternative 0.69", () => {
  const [tetrad, paired, three] = [4, 5, 6].map((at) => resultOf(at) as ChoiceResult);
  expect(tetrad?.discriminatorShare.estimate?.toFixed(2)).toBe("0.33");
  expect([tetrad, paired, three].map((result) => result?.dPrime.estimate?.toFixed(2))).toEqual([
    "1.21",
    "0.95",
    "0.69",
  ]);
  // printed two-sided at 95 %; the report's bound goes with the one-sided test
  const { estimate, low, high } = paired?.correctShare ?? {};
  expect([estimate, low, high].map((share) => Math.round((share ?? 0) * 100))).toEqual([75, 53, 90]);
  expect(paired?.property).toEqual({ name: "Juiciness", comparative: "juicier", expected: "new" });
});

describe("three moments of one chew, which R has from the marks typed once more (test/reference/chew-curve-by-r)", () => {
  const found = () => resultOf(7) as ScaleResult;

  test("the question is about the end of the chew: F(2, 22) = 12.6; no difference is shown at the first bite", () => {
    const { demoMoments } = chewByR;
    const { attributes, outcome } = found();
    expect(attributes.map(({ moment }) => moment?.at)).toEqual(["before-swallowing", "first-bite", "after"]);
    expect(outcome).toBe("reached");
    [demoMoments.end, demoMoments.first, demoMoments.later].forEach(({ f, means }, at) => {
      const { blocks } = attributes[at] ?? {};
      close(blocks?.fValue, f[0]);
      expect([blocks?.numeratorDf, blocks?.denominatorDf]).toEqual(f.slice(1, 3));
      expect(relativeError(blocks?.pValue ?? 0, f[3] ?? 0)).toBeLessThan(1e-11);
      attributes[at]?.means.forEach(({ estimate }, product) => {
        close(estimate, means[product]);
      });
    });
  });

  test("from the first bite to the end the current process loses more; the curves differ in shape", () => {
    const { change, interaction } = chewByR.demo;
    const [curve] = found().curves;
    expect(curve?.area).toBeNull();
    close(curve?.change.blocks?.fValue, change.f[0]);
    curve?.change.contrasts.forEach(({ difference, low, high }, at) => {
      for (const [place, value] of [difference, low, high].entries()) {
        expect(value).toBeCloseTo(change.contrasts[at]?.[place] ?? Number.NaN, 10);
      }
    });
    expect(curve?.interaction?.people).toBe(12);
    expect(relativeError(curve?.interaction?.fValue ?? 0, interaction[0] ?? 0)).toBeLessThan(1e-11);
    expect(relativeError(curve?.interaction?.pValue ?? 0, interaction[3] ?? 0)).toBeLessThan(1e-11);
  });

  test("every cup has three marks, the first without a time, the last when the panelist said so", () => {
    const { state } = studies[7] ?? {};
    if (!state) throw new Error("no such study");
    const { marks, departures } = recordOf(state, { keyMatches: true });
    expect(marks).toHaveLength(108);
    expect(marks.filter(({ chewedSeconds }) => chewedSeconds === null)).toHaveLength(36);
    expect(departures).toEqual([]);
  });
});

test("the ranking: rank sums 20, 36, 39, 25, Friedman 12.1 on 3 and p = 0.007 by chi-square as printed; by R", () => {
  const result = resultOf(8) as RankResult;
  const [ours] = rankingByR.rows;
  expect(result.products).toEqual(["current", "new", "new + rest", "new + held"]);
  expect(result.panelists.map(({ ranks }) => ranks)).toEqual(ours?.ranks);
  expect(result.sums.map(({ sum }) => sum)).toEqual([20, 36, 39, 25]);
  close(result.friedman?.chiSquare, ours?.chiSquare);
  expect(relativeError(result.friedman?.pValueChiSquare ?? 0, ours?.pValue ?? 0)).toBeLessThan(1e-11);
  expect(result.friedman?.pValueChiSquare.toFixed(3)).toBe("0.007");
  expect(result).toMatchObject({ people: 12, outcome: "reached", property: "Juiciness" });
  // each of the four orders of the Williams square was served three times
  expect(result.orders.map(({ judgments }) => judgments)).toEqual([3, 3, 3, 3]);
  expect(result.departures).toEqual([]);
});

describe("liking and just right of 60 diners, which R has from the steps typed once more", () => {
  const found = () => resultOf(9) as ScaleResult;

  test("new is liked better by 0.6 of a step, 0.25 to 0.95: t.test of R, paired", () => {
    const [liking] = found().attributes;
    const contrast = liking?.contrasts[0];
    // whichever way round the two are held against each other
    const sign = contrast?.first === "new" ? 1 : -1;
    const ends = [contrast?.low ?? 0, contrast?.high ?? 0].map((end) => sign * end).sort((a, b) => a - b);
    const got = [sign * (contrast?.difference ?? 0), ...ends];
    for (const [at, value] of got.entries()) expect(value).toBeCloseTo(byR.liking.difference[at] ?? Number.NaN, 10);
    expect(relativeError(contrast?.pValue ?? 0, byR.liking.pValue)).toBeLessThan(1e-11);
    liking?.means.forEach(({ estimate }, at) => {
      close(estimate, byR.liking.means[at]);
    });
  });

  test("counts of just right, and what too little juice cost in liking, with Welch's interval", () => {
    const products = found().attributes[1]?.justRight?.products ?? [];
    expect(products.map(({ counts }) => counts)).toEqual(byR.liking.counts);
    products.forEach(({ drops: { little } }, product) => {
      const got = [little.meanSide, little.meanRight, little.drop, little.test?.low, little.test?.high];
      for (const [at, value] of got.entries()) {
        expect(value).toBeCloseTo(byR.liking.little[product]?.[at] ?? Number.NaN, 10);
      }
    });
    expect(products).toHaveLength(2);
    expect(found().departures).toEqual([]);
  });
});

test("chewed portions: 25.4 and 22.5 % gained, 2.9 points between them (1.4 to 4.5), n = 8 as printed; by R", () => {
  const result = resultOf(10) as PortionsResult;
  const { means, differences, unit } = result.masses;
  expect(unit).toBe("panelist");
  expect(means.map(({ product, panelists, portions }) => [product, panelists, portions])).toEqual([
    ["current", 8, 24],
    ["new", 8, 24],
  ]);
  // readings of hundredths of a gram come within 0.02 of the percentages that the scenario prints with one decimal
  const [difference] = differences;
  const got = [
    difference?.percentagePoints.estimate,
    difference?.percentagePoints.low,
    difference?.percentagePoints.high,
  ];
  for (const [at, value] of got.entries()) {
    expect(Math.abs((value ?? Number.NaN) - (massByR.chew.difference[at] ?? Number.NaN))).toBeLessThan(0.02);
  }
  expect(means.map(({ gainPercent }) => gainPercent.estimate?.toFixed(1))).toEqual(["25.4", "22.5"]);
  expect(got.map((value) => Math.abs(value ?? Number.NaN).toFixed(1))).toEqual(["2.9", "4.5", "1.4"]);
  expect(result.departures).toEqual([]);
});

test("beside the marks of the line stands the ledger: 6.5 points less of the raw mass, 5.2 to 7.7, as printed; by R", () => {
  const total = resultOf(2).study?.measured.find(({ what }) => what === "total-loss");
  const got = [total?.difference.estimate, total?.difference.low, total?.difference.high];
  for (const [at, value] of got.entries()) close(value, massByR.ledger.held.ofRaw.difference[at]);
  expect(got.map((value) => Math.abs(value ?? Number.NaN).toFixed(1))).toEqual(["6.5", "7.7", "5.2"]);
  expect(total?.afterReveal).toBe(true);
});
