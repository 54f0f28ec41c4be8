import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { lowerTail, upperTail } from "../../src/analysis/binomial.ts";
import { pairPower, productsPower, type ScaleTest, seenShareOf } from "../../src/analysis/scale-power.ts";
import { seeded } from "../../src/design/random.ts";
import { deviationAtMost, differenceFoundBy, scalePeople } from "../../src/design/scale-size.ts";
import { reference } from "../analysis/reference.ts";
import { problemOf } from "../problem-of.ts";

const byR = reference(
  "scale-size-by-r",
  z.object({
    plans: z.array(
      z.object({
        people: z.number(),
        products: z.number(),
        perTray: z.number(),
        repeats: z.number(),
        alpha: z.number(),
        difference: z.number(),
        deviation: z.number(),
        pair: z.number(),
        overall: z.number(),
      }),
    ),
    pairs: z.array(z.object({ difference: z.number(), deviation: z.number(), power: z.number(), people: z.number() })),
    smallest: z.array(
      z.object({ people: z.number(), deviation: z.number(), power: z.number(), difference: z.number() }),
    ),
    seen: z.array(
      z.object({
        people: z.number(),
        products: z.number(),
        repeats: z.number(),
        alpha: z.number(),
        difference: z.number(),
        deviation: z.number(),
        seen: z.number(),
        pair: z.number(),
      }),
    ),
    limits: z.array(z.object({ deviation: z.number(), df: z.number(), confidence: z.number(), most: z.number() })),
  }),
);

const two = (change: Partial<ScaleTest> = {}): ScaleTest => ({
  products: 2,
  alpha: 0.05,
  difference: 8,
  deviation: 12,
  ...change,
});

describe("power, R 4.2.2", () => {
  test.each(byR.plans)(
    "$people people, $perTray of $products products, $repeats times, alpha $alpha: a difference of $difference at $deviation",
    ({ people, pair, overall, ...plan }) => {
      // R stops its sums at 1e-12 (pt) and 1e-9 (pf)
      expect(Math.abs(pairPower(plan, people) - pair)).toBeLessThan(1e-10);
      expect(Math.abs(productsPower(plan, people) - overall)).toBeLessThan(3e-9);
    },
  );
});

test.each(byR.seen)(
  "R 4.2.2, pt: $people people with $repeats trays each, of a scatter of $deviation $seen people by products",
  ({ people, seen, pair, ...plan }) => {
    const test = { ...plan, seenShare: seenShareOf(plan.deviation, seen) };
    expect(Math.abs(pairPower(test, people) - pair)).toBeLessThan(1e-10);
  },
);
test("were all of the scatter people by products, further trays would find nothing more; were none of it said, all is averaged", () => {
  const plan = two({ repeats: 3 });
  expect(pairPower({ ...plan, seenShare: 1 }, 14)).toBeCloseTo(pairPower(two(), 14), 12);
  expect(pairPower({ ...plan, seenShare: seenShareOf(12, null) }, 14)).toBe(pairPower(plan, 14));
  expect(pairPower({ ...plan, seenShare: 0.5 }, 14)).toBeLessThan(pairPower(plan, 14));
});

test.each(byR.pairs)(
  "power.t.test of R 4.2.2: $people people find $difference at $deviation with $power",
  ({ difference, deviation, power, people }) => {
    const test = two({ difference, deviation });
    const found = scalePeople(test, power);
    expect(found?.people).toBe(people);
    expect(found?.power).toBeGreaterThanOrEqual(power);
    expect(pairPower(test, people - 1)).toBeLessThan(power);
  },
);

test.each(byR.smallest)(
  "power.t.test of R 4.2.2: $people people at $deviation find $difference with $power",
  ({ people, deviation, power, difference }) => {
    // how near R's root comes
    expect((differenceFoundBy(two({ deviation }), people, power) ?? 0) / difference).toBeCloseTo(1, 8);
  },
);

test.each(byR.limits)("qchisq of R 4.2.2: $deviation with $df df is at most $most", (limit) => {
  expect(deviationAtMost(limit.deviation, limit.df, limit.confidence) / limit.most).toBeCloseTo(1, 11);
});

/** What a study of so many people finds, from its marks by textbook sums; critical numbers of R 4.2.2 are given. */
function studyFinds(means: readonly number[], people: number, deviation: number, normal: () => number) {
  const k = means.length;
  const marks = Array.from({ length: people }, () => {
    const level = 20 * normal();
    return means.map((mean) => mean + level + deviation * normal());
  });
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const columns = means.map((_, at) => mean(marks.map((row) => row[at] ?? 0)));
  const all = mean(columns);
  const between = (people * columns.reduce((sum, value) => sum + (value - all) ** 2, 0)) / (k - 1);
  const rest = marks.flatMap((row) => row.map((value, at) => value - mean(row) - (columns[at] ?? 0) + all));
  const residual = rest.reduce((sum, value) => sum + value * value, 0) / ((people - 1) * (k - 1));
  const t = ((columns[0] ?? 0) - (columns[1] ?? 0)) / Math.sqrt((2 * residual) / people);
  return { t: Math.abs(t), f: between / residual };
}

test("4,000 drawn studies of 8 people and 3 products find what is promised, within exact binomial bands", () => {
  const random = seeded("studies", "scale-size");
  const uniform = () => (random.below(2 ** 30) + 0.5) / 2 ** 30;
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const plan: ScaleTest = { products: 3, alpha: 0.05, difference: 15, deviation: 10 };
  const studies = Array.from({ length: 4000 }, () => studyFinds([42.5, 57.5, 50], 8, 10, normal));
  // qt(1 - 0.05 / 6, 14) and qf(0.95, 2, 14)
  const pairs = studies.filter(({ t }) => t >= 2.71775515945977).length;
  const overall = studies.filter(({ f }) => f >= 3.73889183244073).length;
  for (const [found, power] of [
    [pairs, pairPower(plan, 8)],
    [overall, productsPower(plan, 8)],
  ] as const) {
    expect(power).toBeGreaterThan(0.3);
    expect(power).toBeLessThan(0.9);
    expect(upperTail(found, 4000, power)).toBeGreaterThan(1e-3);
    expect(lowerTail(found, 4000, power)).toBeGreaterThan(1e-3);
  }
});

describe("power rises", () => {
  const rises = (values: readonly number[]) => {
    for (const [at, value] of values.entries()) if (at > 0) expect(value).toBeGreaterThan(values[at - 1] ?? 1);
  };
  test.each([2, 3, 5])("with people, %d products: so the first number is the last that matters", (products) => {
    const numbers = Array.from({ length: 60 }, (_, at) => at + 2);
    rises(numbers.map((people) => pairPower(two({ products }), people)));
    rises(numbers.filter((n) => n % 6 === 0).map((people) => productsPower(two({ products }), people)));
  });
  test("with the difference and the risk, and falls with the deviation", () => {
    rises([2, 4, 8, 12].map((difference) => pairPower(two({ difference }), 12)));
    rises([0.001, 0.01, 0.05, 0.2].map((alpha) => pairPower(two({ alpha }), 12)));
    rises([20, 15, 10, 6].map((deviation) => pairPower(two({ deviation }), 12)));
  });
  test("from the risk itself, where nothing differs; only the unit of both counts", () => {
    expect(pairPower(two({ difference: 1e-6 }), 12)).toBeCloseTo(0.05, 10);
    expect(productsPower(two({ products: 4, difference: 1e-6 }), 12)).toBeCloseTo(0.05, 10);
    expect(pairPower(two({ difference: 4, deviation: 6 }), 12)).toBeCloseTo(pairPower(two(), 12), 13);
  });
});

test("the smallest difference found has the power asked for, with several products too", () => {
  const plan = { products: 4, perTray: 3, repeats: 2, alpha: 0.05, deviation: 9 };
  const difference = differenceFoundBy(plan, 20, 0.9) ?? 0;
  expect(pairPower({ ...plan, difference }, 20)).toBeCloseTo(0.9, 8);
});

describe("nothing to judge by", () => {
  test("one person, or a line too short for the difference", () => {
    expect(pairPower(two(), 1)).toBe(0);
    expect(productsPower(two(), 1)).toBe(0);
    expect(differenceFoundBy(two(), 1)).toBeNull();
    expect(differenceFoundBy(two({ deviation: 100 }), 3)).toBeNull();
    expect(scalePeople(two({ difference: 0.1, deviation: 50 }))).toBeNull();
  });
  test.each([
    [two({ deviation: 0 }), "analysis/out-of-range"],
    [two({ difference: Number.NaN }), "analysis/out-of-range"],
    [two({ alpha: 0.6 }), "analysis/risk-out-of-range"],
    [two({ products: 1 }), "analysis/not-a-count"],
    [two({ products: 3, perTray: 4 }), "analysis/not-a-count"],
  ] as const)("%o is refused", (plan, code) => {
    expect(problemOf(() => pairPower(plan, 12)).code).toBe(code);
  });
  test("a power of 1 is refused", () => {
    expect(problemOf(() => scalePeople(two(), 1)).code).toBe("analysis/not-a-share");
  });
});
