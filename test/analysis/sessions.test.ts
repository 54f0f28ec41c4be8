import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { sessionsDiffer, sessionsOf } from "../../src/analysis/sessions.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";

const { rows } = reference(
  "sessions-by-r",
  z.object({
    rows: z
      .array(
        z.object({ sessions: z.array(z.tuple([z.number(), z.number()])), fisher: z.number(), chiSquare: z.number() }),
      )
      .check(z.minLength(9)),
  }),
);
const rowsOf = (sessions: readonly (readonly [number, number])[]) =>
  sessions.map(([judgments, correct]) => ({ judgments, correct }));

test.each(rows)("answers and right ones by session $sessions: p = $fisher, R's fisher.test", ({ sessions, fisher }) => {
  const found = sessionsDiffer(rowsOf(sessions));
  expect(found.exact).toBe(true);
  // fisher.test works in networks of its own and is good to about 8 digits for more than two sessions
  expect(relativeError(found.pValue, fisher)).toBeLessThan(1e-7);
});

test("too many tables to count: R's chisq.test without correction, and it says so", () => {
  const sizes = [211, 223, 227, 229, 233, 239, 241, 251];
  const found = sessionsDiffer(rowsOf(sizes.map((size, at) => [size, Math.round(size * (0.4 + at / 50))] as const)));
  expect(found.exact).toBe(false);
  // chisq.test(cbind(x, n - x), correct = FALSE) with x = 84 94 100 105 112 120 125 136, R 4.2.2
  expect(found.pValue).toBeCloseTo(0.0258045891651196, 10);
});

describe("where nothing can differ", () => {
  test("one session, none, all right, none right: 1", () => {
    for (const sessions of [
      [],
      [[9, 4]],
      [
        [9, 9],
        [5, 5],
      ],
      [
        [9, 0],
        [5, 0],
      ],
      [
        [9, 4],
        [0, 0],
      ],
    ] as [number, number][][]) {
      expect(sessionsDiffer(rowsOf(sessions))).toEqual({ pValue: 1, exact: true });
    }
  });
});

const session = fc.integer({ min: 0, max: 9 }).chain((n) => fc.tuple(fc.constant(n), fc.integer({ min: 0, max: n })));
test("the order of sessions, and calling right wrong, change nothing", () => {
  fc.assert(
    fc.property(fc.array(session, { maxLength: 5 }), (sessions) => {
      const { pValue } = sessionsDiffer(rowsOf(sessions));
      expect(relativeError(sessionsDiffer(rowsOf([...sessions].reverse())).pValue, pValue)).toBeLessThan(1e-9);
      const wrong = sessions.map(([n, right]) => [n, n - right] as const);
      expect(relativeError(sessionsDiffer(rowsOf(wrong)).pValue, pValue)).toBeLessThan(1e-9);
    }),
  );
});
test("no false alarm oftener than alpha: all tables of three sessions with 11 of 15 right, counted with their chances", () => {
  const sizes = [4, 5, 6] as const;
  const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);
  for (const alpha of [0.05, 0.1, 0.3]) {
    let alarms = 0;
    for (let a = 0; a <= 4; a++) {
      for (let b = 0; b <= 5; b++) {
        const c = 11 - a - b;
        if (c < 0 || c > 6) continue;
        const { pValue } = sessionsDiffer(
          rowsOf([
            [sizes[0], a],
            [sizes[1], b],
            [sizes[2], c],
          ]),
        );
        if (pValue <= alpha) alarms += (choose(4, a) * choose(5, b) * choose(6, c)) / choose(15, 11);
      }
    }
    expect(alarms).toBeLessThanOrEqual(alpha);
  }
});

test("rows come in the order of the names; with one name there are none", () => {
  const answers = [
    { session: "Tuesday", correct: true },
    { session: "Monday", correct: false },
    { session: "Tuesday", correct: false },
  ];
  expect(sessionsOf(answers, ["Monday", "Tuesday"])).toEqual({
    rows: [
      { session: "Monday", judgments: 1, correct: 0 },
      { session: "Tuesday", judgments: 2, correct: 1 },
    ],
    pValue: 1,
    exact: true,
  });
  expect(sessionsOf(answers, ["Monday"])).toBeNull();
});
test("more right than answered is refused", () => {
  expect(problemOf(() => sessionsDiffer([{ judgments: 2, correct: 3 }])).code).toBe("analysis/not-a-count");
});
