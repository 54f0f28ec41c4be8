import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { pointProbability } from "../../src/analysis/binomial.ts";
import { choiceStatistics } from "../../src/analysis/choice.ts";
import { normalQuantile } from "../../src/analysis/normal.ts";
import { exactInterval, lowerLimit, scoreInterval, upperLimit } from "../../src/analysis/share-interval.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

type Ends = { low: number; high: number };

/** The bounds of every count of n, and where coverage can be least: just inside each of them. */
function leastCoverage(n: number, endsOf: (correct: number) => Ends): { least: number; at: number } {
  const ends = Array.from({ length: n + 1 }, (_, correct) => endsOf(correct));
  const edges = ends.flatMap(({ low, high }) => [low - 1e-9, low + 1e-9, high - 1e-9, high + 1e-9]);
  let found = { least: 1, at: 0 };
  for (const share of edges.filter((edge) => edge > 0 && edge < 1)) {
    const covered = ends.reduce(
      (sum, { low, high }, correct) => sum + (low <= share && share <= high ? pointProbability(correct, n, share) : 0),
      0,
    );
    if (covered < found.least) found = { least: covered, at: share };
  }
  return found;
}

const sizes = [1, 2, 3, 5, 6, 7, 10, 12, 18, 24, 30, 36, 41, 48, 60];

describe("coverage counted out over every count, at the shares where it is least (no simulation)", () => {
  test.each([0.8, 0.9, 0.95, 0.99])(
    "the exact interval at %d never falls below its level, 1 to 60 judgments",
    (level) => {
      for (const n of sizes) {
        // the shift off the edge moves probability by less than n times it
        expect(leastCoverage(n, (correct) => exactInterval(correct, n, level)).least).toBeGreaterThan(level - n * 2e-9);
      }
    },
  );
  test.each([0.8, 0.9, 0.95, 0.99])("the exact one-sided bounds at %d likewise", (level) => {
    for (const n of sizes) {
      const lower = (correct: number) => ({ low: lowerLimit(correct, n, 1 - level), high: 1 });
      const upper = (correct: number) => ({ low: 0, high: upperLimit(correct, n, 1 - level) });
      expect(leastCoverage(n, lower).least).toBeGreaterThan(level - n * 2e-9);
      expect(leastCoverage(n, upper).least).toBeGreaterThan(level - n * 2e-9);
    }
  });
  // with one judgment it is least just outside the end at 1 / (1 + z^2), where only the other count covers: by hand
  test.each([0.9, 0.95, 0.99])(
    "the score interval at %d falls short of its level: how far is reported here",
    (level) => {
      const report = sizes.map((n) => ({ n, ...leastCoverage(n, (correct) => scoreInterval(correct, n, level)) }));
      const worst = report.reduce((one, other) => (other.least < one.least ? other : one));
      const square = normalQuantile((1 + level) / 2) ** 2;
      process.stdout.write(
        `score interval at ${level}: least coverage ${worst.least.toFixed(4)} with ${worst.n} judgments at a share of ${worst.at.toFixed(4)}; with 60: ${report.at(-1)?.least.toFixed(4)}\n`,
      );
      expect(worst.least).toBeLessThan(level);
      expect(Math.abs((report[0]?.least ?? 0) - square / (1 + square))).toBeLessThan(1e-8);
    },
  );
});

describe("the test keeps its risk, and bounds mapped to shares who tell and to d-prime keep theirs", () => {
  const methods = ["triangle", "duo-trio", "paired-difference", "three-alternative", "tetrad"] as const;
  test.each(methods)("%s: guessing panels of 6 to 40 reach alpha no more often than alpha", (method) => {
    for (const judgments of [6, 12, 24, 40]) {
      let [reached, low] = [0, 0];
      for (let correct = 0; correct <= judgments; correct++) {
        const found = choiceStatistics({ method, goal: "difference", alpha: 0.05, correct, judgments });
        const chance = pointProbability(correct, judgments, found.guessProbability);
        if (found.outcome === "reached") reached += chance;
        if (found.outcome === "far-below-chance") low += chance;
        expect((found.dPrime.low ?? 0) > 0).toBe(found.outcome === "reached");
        expect((found.discriminatorShare.low ?? 0) > 0).toBe(found.outcome === "reached");
      }
      expect(reached).toBeLessThanOrEqual(0.05);
      // labels are doubted only below the 2.5 % tail of guessing
      expect(low).toBeLessThanOrEqual(0.025);
      expect(judgments < 24 || low > 0).toBe(true);
    }
  });
  test("every interval holds its estimate, and none is NaN or infinite", () => {
    const cases = fc.record({
      method: fc.constantFrom(...methods),
      judgments: fc.integer({ min: 1, max: 120 }),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      confidence: fc.constantFrom(0.8, 0.95, 0.99),
      likeness: fc.boolean(),
    });
    fc.assert(
      fc.property(cases, ({ method, judgments, at, confidence, likeness }) => {
        const goal = likeness
          ? ({ goal: "similarity", limit: { discriminatorShare: 0.3, dPrime: 1, beta: 0.05 } } as const)
          : ({ goal: "difference" } as const);
        const correct = Math.round(at * judgments);
        const found = choiceStatistics({ ...goal, method, alpha: 0.05, correct, judgments, confidence });
        const { correctShare, correctShareScore, discriminatorShareScore, dPrime, dPrimeProfile } = found;
        for (const { estimate, low, high } of [
          correctShare,
          correctShareScore,
          discriminatorShareScore,
          dPrimeProfile,
        ]) {
          expect(low ?? Number.NaN).toBeLessThanOrEqual((estimate ?? Infinity) + 1e-12);
          if (high !== null) expect(high).toBeGreaterThanOrEqual((estimate ?? Infinity) - 1e-12);
        }
        for (const value of [dPrime.low, dPrime.high, dPrimeProfile.high, found.dPrimeStandardError, found.pValue]) {
          expect(value === null || Number.isFinite(value)).toBe(true);
        }
        expect(found.pValue).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });
});
