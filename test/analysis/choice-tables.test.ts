import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { criticalNumber, lowerTail, mostWithin, upperTail } from "../../src/analysis/binomial.ts";
import { choiceMethod, rightShareOf } from "../../src/analysis/method.ts";
import { likenessTest } from "../../src/design/size-test.ts";
import { reference, relativeError } from "./reference.ts";

const number = z.number();
const cell = z.nullable(number);
const needed = z.tuple([number, cell, cell, cell, cell, cell]);
const misprint = z.object({ n: number, alpha: z.string(), printed: number, exact: number, exactTailOfPrinted: number });
const duoTrio = reference(
  "duo-trio-critical-published",
  z.object({ rows: z.array(needed).check(z.minLength(40)), misprints: z.array(misprint).check(z.length(3)) }),
);
const paired = reference("paired-critical-published", z.object({ rows: z.array(needed).check(z.minLength(24)) }));
const half = reference("half-critical-computed", z.object({ rows: z.array(needed).check(z.minLength(117)) }));

const alphas = [0.2, 0.1, 0.05, 0.01, 0.001];
const criticalOf = (method: string, n: number) =>
  alphas.map((alpha) => criticalNumber(n, choiceMethod(method).guessProbability, alpha));
const misprinted = [22];

describe("least number of right answers where a guess is right half of the time", () => {
  test.each(duoTrio.rows.filter(([n]) => !misprinted.includes(n)))(
    "duo-trio, %d judgments: %s, %s, %s, %s, %s at 20, 10, 5, 1 and 0.1 %; GOST ISO 10399-2015 Table A.1, seen",
    (n, ...cells) => expect(criticalOf("duo-trio", n)).toEqual(cells),
  );
  test.each(duoTrio.misprints)(
    "duo-trio, $n judgments at $alpha: printed $printed, a misprint, exact $exact; row 22 of GOST R 53161-2008 has it right",
    ({ n, alpha, printed, exact, exactTailOfPrinted }) => {
      expect(criticalNumber(n, 1 / 2, Number(alpha))).toBe(exact);
      expect(relativeError(upperTail(printed, n, 1 / 2), exactTailOfPrinted)).toBeLessThan(1e-12);
      expect(paired.rows.find(([row]) => row === n)).toContain(exact);
    },
  );
  test("duo-trio, 22 judgments: the two cells of the row that are no misprints agree", () => {
    const row = duoTrio.rows.find(([n]) => n === 22);
    expect(criticalOf("duo-trio", 22).slice(3)).toEqual(row?.slice(4));
  });
  test.each(paired.rows)(
    "paired, one-sided, %d judgments: %s, %s, %s, %s, %s; GOST R 53161-2008 (ISO 5495) Table A.1, seen in part",
    (n, ...cells) => expect(criticalOf("paired-difference", n)).toEqual(cells),
  );
  test.each(half.rows)("%d judgments: %s, %s, %s, %s, %s; exact fractions computed outside", (n, ...cells) => {
    expect(criticalOf("duo-trio", n)).toEqual(cells);
  });
  test("30 judgments at 10 % need 20: 19 come up with 0.10024, which rounding would let pass (exact fraction)", () => {
    expect(relativeError(upperTail(19, 30, 1 / 2), 0.10024421103298664)).toBeLessThan(1e-13);
    expect(criticalNumber(30, 1 / 2, 0.1)).toBe(20);
  });
});

const limits = [0.1, 0.2, 0.3, 0.4, 0.5];
const published = reference(
  "similarity-paired-published",
  z.object({
    rows: z.array(z.tuple([number, z.string(), cell, cell, cell, cell, cell])).check(z.minLength(10)),
    misprints: z
      .array(
        z.object({
          n: number,
          beta: z.string(),
          pd: number,
          printed: number,
          exact: number,
          exactCdfAtPrinted: number,
        }),
      )
      .check(z.length(6)),
  }),
);
const pair = z.nullable(z.tuple([cell, z.boolean()]));
const computed = reference(
  "similarity-half-computed",
  z.object({ rows: z.array(z.tuple([number, z.string(), pair, pair, pair, pair, pair])).check(z.minLength(145)) }),
);

/** The rule, and as the table prints it: a dash where the number lies below what guessing expects. */
const mostAt = (n: number, beta: string, limit: number) =>
  mostWithin(n, rightShareOf("paired-difference", limit), Number(beta));
const printedRule = (n: number, beta: string, limit: number) => {
  const most = mostAt(n, beta, limit);
  return most !== null && most >= n / 2 ? most : null;
};

describe("most right answers that show likeness where a guess is right half of the time", () => {
  const faulty = (n: number, beta: string, pd: number) =>
    published.misprints.find((each) => each.n === n && each.beta === beta && each.pd === pd);
  const cells = published.rows.flatMap(([n, beta, ...row]) =>
    limits.map((limit, at) => ({ n, beta, limit, printed: row[at] ?? null })),
  );
  test.each(cells.filter(({ n, beta, limit }) => !faulty(n, beta, limit)))(
    "paired, $n judgments, beta $beta, limit $limit: $printed; GOST R 53161-2008 (ISO 5495) Table A.3, seen in part",
    ({ n, beta, limit, printed }) => expect(printedRule(n, beta, limit)).toBe(printed),
  );
  test.each(published.misprints)(
    "paired, $n judgments, beta $beta, limit $pd: printed $printed, by the rule $exact; a misprint of the same table",
    ({ n, beta, pd, printed, exact, exactCdfAtPrinted }) => {
      expect(cells.find((each) => each.n === n && each.beta === beta && each.limit === pd)?.printed).toBe(printed);
      expect(mostAt(n, beta, pd)).toBe(exact);
      const share = rightShareOf("paired-difference", pd);
      expect(relativeError(lowerTail(printed, n, share), exactCdfAtPrinted)).toBeLessThan(1e-11);
    },
  );
  test.each(computed.rows)("%d judgments at a risk of %s; exact fractions computed outside", (n, beta, ...row) => {
    expect(limits.map((limit) => mostAt(n, beta, limit))).toEqual(row.map((each) => each?.[0] ?? null));
    // the planner counts wrong answers upwards instead: it must come to the same
    const planned = limits.map((limit) => likenessTest("duo-trio", limit, Number(beta)).criticalNumber(n));
    expect(planned).toEqual(row.map((each) => each?.[0] ?? null));
  });
});
