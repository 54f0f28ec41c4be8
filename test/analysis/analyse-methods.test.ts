import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyse, resultOfRows } from "../../src/analysis/analyse.ts";
import { resultOfKindRows } from "../../src/analysis/analyse-kinds.ts";
import { designMethod } from "../../src/design/method.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type Result, result as schema } from "../../src/model/result.ts";
import { cycle, property, recordByHand, type TrayByHand } from "./method-records.ts";
import { reference } from "./reference.ts";
import { current } from "./scenario.ts";

/** Orders of a method of two products without parts of their own. */
const ordersFor = (method: "triangle" | "tetrad") =>
  designMethod(method).orders({ products: 2, references: [], stronger: "A", weaker: "B" });

const whats = (caveats: readonly { what: string }[]) => caveats.map(({ what }) => what);
/** Trays of these orders by turns; the first `correct` are answered right, at the places named. */
const answered = (orders: readonly string[], places: readonly number[], correct: number, of: number): TrayByHand[] =>
  cycle(
    orders.map((order, at) => ({ order, place: places[at] ?? 0 })),
    of,
  ).map(({ order, place }, at) => {
    const wrong = order.length > 3 && !order.includes(":") ? (place === 4 ? 3 : 4) : place === 1 ? 2 : 1;
    return { order, answers: [at < correct ? place : wrong] };
  });
const choice = (found: Result) => {
  if (found.family !== "choice") throw new Error(`a choice test gave ${found.family}`);
  expect(z.safeParse(schema, found).success).toBe(true);
  return found;
};

describe("the kitchen's invented studies", () => {
  test("duo-trio, 12 people three times: 22 of 36, needs 24, p = 0.121; spread 16.4 on 11, p = 0.13", () => {
    const own = [3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0];
    const trays = own.flatMap((right, person): TrayByHand[] =>
      [0, 1, 2].map((time) => {
        const order = time % 2 === 0 ? "A:AB" : "A:BA";
        const place = order === "A:AB" ? 1 : 2;
        return { order, answers: [time < right ? place : 3 - place], seat: person + 1 };
      }),
    );
    const plan: Partial<Plan> = {
      method: "duo-trio",
      people: 12,
      repeats: 3,
      reference: { kind: "constant", product: current },
    };
    const found = choice(analyse(recordByHand(plan, trays), "1"));
    expect(found).toMatchObject({ correct: 22, judgments: 36, people: 12, criticalNumber: 24, outcome: "not-reached" });
    expect(found.pValue).toBeCloseTo(0.121, 3);
    expect(found.spread?.chiSquare).toBeCloseTo(16.4, 1);
    expect(found.spread?.df).toBe(11);
    expect(found.spread?.pValue).toBeCloseTo(0.13, 2);
    expect(found.panelists.filter(({ correct }) => correct === 3)).toHaveLength(4);
    expect(found.panelists[0]).toEqual({ panelist: "seat 1", correct: 3, judgments: 3 });
    expect(found.caveats).toContainEqual({ what: "repeats-pooled", people: 12, judgments: 36 });
    expect(found.discriminatorShare).toMatchObject({ low: null, kind: "none" });
    // both orders, counted by the reference cup too, whose batch was served
    expect(found.orders.map(({ order, judgments }) => [order, judgments])).toEqual([
      ["A:AB", 24],
      ["A:BA", 12],
    ]);
    expect(found.study?.products[0]?.batches).toContain("batch of the cup");
  });
  test("tetrad: 10 of 18, needs 10, p = 0.0433, a third can tell, d-prime 1.21", () => {
    const orders = ordersFor("tetrad");
    const found = choice(
      analyse(recordByHand({ method: "tetrad", people: 18 }, answered(orders, [2, 3, 4, 4, 3, 2], 10, 18)), "1"),
    );
    expect(found).toMatchObject({ correct: 10, judgments: 18, criticalNumber: 10, outcome: "reached" });
    expect(found.pValue).toBeCloseTo(0.0433, 4);
    expect(found.discriminatorShare.estimate).toBeCloseTo(0.33, 2);
    expect(found.dPrime.estimate).toBeCloseTo(1.21, 2);
    expect(found.oddPositions.map(({ position }) => position)).toEqual([2, 3, 4]);
  });
  test("paired difference, new expected juicier: 18 of 24, needs 17, p = 0.0113, d-prime 0.95, 75 % (53 to 90)", () => {
    const plan: Partial<Plan> = { method: "paired-difference", properties: [property("Juiciness")] };
    const found = choice(analyse(recordByHand(plan, answered(["AB", "BA"], [2, 1], 18, 24)), "1"));
    expect(found).toMatchObject({ correct: 18, criticalNumber: 17, outcome: "reached", sides: "one" });
    expect(found.property).toEqual({ name: "Juiciness", comparative: "more Juiciness", expected: "new" });
    expect(found.pValue).toBeCloseTo(0.0113, 4);
    expect(found.dPrime.estimate).toBeCloseTo(0.95, 2);
    expect(found.correctShare.low).toBeCloseTo(0.53, 2);
    expect(found.correctShare.high).toBeCloseTo(0.9, 2);
    expect(whats(found.caveats)).toEqual(expect.arrayContaining(["one-property", "guessing-model"]));
    expect(whats(found.caveats)).not.toContain("nature-unknown");
  });
  test("three alternatives: 13 of 24, needs 13, p = 0.0284, d-prime 0.69", () => {
    const plan: Partial<Plan> = { method: "three-alternative", properties: [property("Juiciness")] };
    const found = choice(analyse(recordByHand(plan, answered(["BAA", "ABA", "AAB"], [1, 2, 3], 13, 24)), "1"));
    expect(found).toMatchObject({ correct: 13, criticalNumber: 13, outcome: "reached" });
    expect(found.pValue).toBeCloseTo(0.0284, 4);
    expect(found.dPrime.estimate).toBeCloseTo(0.69, 2);
    expect(found.orders.map(({ order }) => order)).toEqual(["AAB", "ABA", "BAA"]);
  });
  test("preference of 60 diners: new 31, current 19, neither 10; p = 0.119", () => {
    const picked = [...Array(19).fill("A"), ...Array(31).fill("B"), ...Array(10).fill("none")];
    const trays = picked.map((what, at): TrayByHand => {
      const order = at % 2 === 0 ? "AB" : "BA";
      return { order, answers: [what === "none" ? "none" : order.indexOf(what) + 1] };
    });
    const blankNorm = { title: "Twice the same", none: 24, of: 60 };
    const plan: Partial<Plan> = { method: "paired-preference", noPreference: "dropped", people: 60, blankNorm };
    const found = analyse(recordByHand(plan, trays), "1");
    expect(found).toMatchObject({
      family: "pair",
      counts: { first: 19, second: 31, none: 10 },
      outcome: "not-reached",
    });
    expect(found.family === "pair" && found.pValue).toBeCloseTo(0.119, 3);
    expect(z.safeParse(schema, found).success).toBe(true);
    // fisher.test(matrix(c(24, 36, 10, 50), 2), alternative = "greater")$p.value, R 4.2.2
    expect(found.family === "pair" && found.blankNorm?.pValue).toBeCloseTo(0.0039607444428509, 12);
  });
});

describe("two kinds of trays in a study", () => {
  const study = (people: number, repeats: number, told: (seat: number, time: number, unlike: boolean) => boolean) =>
    recordByHand(
      { method: "same-different", people, repeats, dPrimeSought: 1.5 },
      Array.from({ length: people * repeats }, (_, at): TrayByHand => {
        const seat = (at % people) + 1;
        const time = Math.floor(at / people);
        const order = ["AB", "AA", "BA", "BB"][(at + time) % 4] ?? "AB";
        return { order, answers: [told(seat, time, order === "AB" || order === "BA") ? "different" : "same"], seat };
      }),
    );
  test("one answer a person: R's fisher.test on 9 of 12 and 3 of 12, p = 0.0196", () => {
    const record = study(24, 1, (seat, _time, unlike) => (unlike ? seat <= 17 : seat <= 6));
    const found = analyse(record, "1");
    expect(found).toMatchObject({
      family: "kinds",
      unlike: { told: 9, of: 12 },
      like: { told: 3, of: 12 },
      people: 24,
    });
    // fisher.test(matrix(c(9, 3, 3, 9), 2), alternative = "greater")$p.value, R 4.2.2
    expect(found.family === "kinds" && found.pValue).toBeCloseTo(0.0195628506639409, 12);
    expect(whats(found.caveats)).toEqual(
      expect.arrayContaining(["nature-unknown", "this-panel-only", "leaning-model"]),
    );
    expect(found.orders.map(({ order }) => order)).toEqual(["AA", "AB", "BA", "BB"]);
    expect(z.safeParse(schema, found).success).toBe(true);
  });
  test("four answers a person are held against each other within people", () => {
    const found = analyse(
      study(8, 4, (seat, _time, unlike) => unlike || seat > 4),
      "1",
    );
    // eight people with two of each kind: four told 2 of 2 and 0 of 2 (1 in 6 each), four told everything (say nothing)
    expect(found.family === "kinds" && found.pValue).toBeCloseTo(1 / 6 ** 4, 15);
    expect(found).toMatchObject({ withinPeople: true, people: 8, outcome: "reached", power: null });
    expect(found.caveats).toContainEqual({ what: "people-compared", people: 8, judgments: 32 });
  });
  test("rows from elsewhere are the same people and counts", () => {
    const rows = Array.from({ length: 32 }, (_, at) => {
      const seat = Math.floor(at / 4) + 1;
      return {
        panelist: `seat ${seat}`,
        repeat: String((at % 4) + 1),
        unlike: at % 2 === 0,
        told: at % 2 === 0 || seat > 4,
      };
    });
    const found = resultOfKindRows({ method: "same-different", alpha: 0.05 }, rows, "1");
    expect(found.pValue).toBeCloseTo(1 / 6 ** 4, 15);
    expect(found.panelists).toHaveLength(8);
  });
});

describe("several questions on each tray", () => {
  /** First questions right so often, second and third ones as well. */
  const study = (right: readonly number[], families: readonly boolean[], plan: Partial<Plan> = {}) =>
    recordByHand(
      {
        method: "paired-difference",
        properties: families.map((inFamily, at) => property("x".repeat(at + 1), { inFamily })),
        ...plan,
      },
      cycle(["AB", "BA"], 24).map((order, at) => ({
        order,
        answers: right.map((count) => (at < count ? order.indexOf("B") + 1 : order.indexOf("A") + 1)),
      })),
    );
  /** P(X >= k) of 24 at 1/2: sums of binomial coefficients over 2^24. */
  const tails: Record<number, number> = { 15: 2579130, 16: 1271626, 17: 536155, 18: 190051 };
  const tail = (k: number) => (tails[k] ?? Number.NaN) / 2 ** 24;

  test("Holm within the family: 18, 16 and 15 of 24 share the risk, and a fourth is looked at without a verdict", () => {
    const found = choice(analyse(study([18, 16, 15, 17], [true, true, true, false]), "1"));
    expect(found.pValue).toBeCloseTo(tail(18), 14);
    expect(found.pValueAdjusted).toBeCloseTo(3 * tail(18), 14);
    expect(found.outcome).toBe("reached");
    expect(found.questions.map(({ outcome }) => outcome)).toEqual(["reached", "not-reached", "not-reached", null]);
    expect(found.questions.map(({ pValueAdjusted: p }) => p)).toEqual([
      expect.closeTo(3 * tail(18), 14),
      expect.closeTo(2 * tail(16), 14),
      // the last step: its own p, but no less than the one before it
      expect.closeTo(Math.max(2 * tail(16), tail(15)), 14),
      null,
    ]);
    expect(found.questions[3]).toMatchObject({ correct: 17, judgments: 24, criticalNumber: null, inFamily: false });
    expect(found.caveats).toContainEqual({ what: "exploratory-questions", questions: 1 });
  });
  test("17 of 24 would do alone (p = 0.032) and not in a family of two: there it takes 18", () => {
    const found = choice(analyse(study([17, 15], [true, true]), "1"));
    expect(found).toMatchObject({ outcome: "not-reached", criticalNumber: 18, correct: 17 });
    expect(choice(analyse(study([17], [true]), "1"))).toMatchObject({
      outcome: "reached",
      criticalNumber: 17,
      questions: [],
    });
    // beside one that has passed already, 17 is enough
    expect(choice(analyse(study([17, 24], [true, true]), "1"))).toMatchObject({
      outcome: "reached",
      criticalNumber: 17,
    });
    // the bounds stand where the verdict does: no gain is shown, and none is excluded
    expect(found.discriminatorShareRange.low).toBe(0);
    expect([found.discriminatorShare.low, found.dPrime.low]).toEqual([0, 0]);
  });
  test("two-sided: a pair for each property, with distances, and the same steps", () => {
    const found = analyse(study([6, 20], [true, true], { sides: "two" }), "1");
    if (found.family !== "pair") throw new Error("a two-sided paired difference is a pair");
    expect(z.safeParse(schema, found).success).toBe(true);
    // the first product, current, was picked 18 times
    expect(found).toMatchObject({ method: "paired-difference", counts: { first: 18, second: 6, none: 0 } });
    expect(found.property).toMatchObject({ expected: null });
    expect(found.pValueAdjusted).toBeCloseTo(2 * tail(18), 14);
    expect(found.dPrime?.estimate).toBeCloseTo(0.953872552417513, 10); // sqrt 2 times the normal quantile of 0.75
    expect(found.questions[1]).toMatchObject({ correct: 4, outcome: "reached" });
    expect(whats(found.caveats)).not.toContain("preference-not-size");
  });
  test("a key that does not match withholds every verdict of the family", () => {
    const found = choice(analyse({ ...study([18, 16], [true, false]), keyMatches: false }, "1"));
    expect(found.outcome).toBe("withheld");
    expect(found.questions.map(({ outcome }) => outcome)).toEqual(["withheld", null]);
  });
});

describe("several answers a person, and likeness", () => {
  const { rows } = reference(
    "spread-by-r",
    z.object({
      rows: z.array(
        z.object({
          right: z.array(z.number()),
          of: z.array(z.number()),
          choices: z.number(),
          corrected: z.array(z.number()),
        }),
      ),
    }),
  );
  test.each(rows.filter(({ choices }) => choices === 3))(
    "people with $right right of $of: the mean share who tell against 60 %, by R's profile likelihood",
    ({ right, of, corrected }) => {
      const answers = right.flatMap((own, person) =>
        Array.from({ length: of[person] ?? 0 }, (_, at) => ({
          panelist: `P${person}`,
          repeat: String(at + 1),
          correct: at < own,
        })),
      );
      const limit = { discriminatorShare: 0.6, beta: 0.05 };
      const found = resultOfRows({ method: "triangle", goal: "similarity", alpha: 0.05, limit }, answers, "1");
      expect(z.safeParse(schema, found).success).toBe(true);
      expect(found.pValue).toBeCloseTo(corrected[7] ?? 0, 6);
      expect(found.discriminatorShare.estimate).toBeCloseTo(corrected[0] ?? 0, 4);
      expect(found).toMatchObject({ criticalNumber: null, outcome: "not-within-limit", people: right.length });
      expect(found.discriminatorShare).toMatchObject({ kind: "upper", low: null });
      expect(whats(found.caveats)).toContain("likeness-by-spread");
    },
  );
  test("one person alone is tested as one, and worded as one", () => {
    const answers = Array.from({ length: 60 }, (_, at) => ({
      panelist: "Dov",
      repeat: String(at + 1),
      correct: at < 22,
    }));
    const limit = { discriminatorShare: 0.3, beta: 0.05 };
    const found = resultOfRows({ method: "triangle", goal: "similarity", alpha: 0.05, limit }, answers, "1");
    // the plain binomial at 8/15: 25 of 60 is the most within the limit (similarity table of the triangle, computed)
    expect(found).toMatchObject({
      people: 1,
      criticalNumber: 25,
      outcome: "within-limit",
      betaBinomial: null,
      spread: null,
    });
    expect(found.caveats).toContainEqual({ what: "one-person", judgments: 60 });
  });
});

describe("sessions planned together", () => {
  const waves = recordByHand({}, []).plan.waves.map((wave, at) => ({
    ...wave,
    session: at < 2 ? "Monday" : "Tuesday",
  }));
  const study = (monday: number, tuesday: number) =>
    recordByHand(
      { method: "paired-difference", properties: [property("Juiciness")], waves },
      cycle(["AB", "BA"], 24).map((order, at) => {
        const right = at < 12 ? at < monday : at - 12 < tuesday;
        return {
          order,
          answers: [right ? order.indexOf("B") + 1 : order.indexOf("A") + 1],
          wave: Math.floor(at / 6) + 1,
        };
      }),
    );
  test("pooled, with the check that they agree beside it: 9 of 12 and 4 of 12, R's fisher.test 0.0995", () => {
    const found = choice(analyse(study(9, 4), "1"));
    expect(found.sessions?.rows).toEqual([
      { session: "Monday", judgments: 12, correct: 9 },
      { session: "Tuesday", judgments: 12, correct: 4 },
    ]);
    expect(found.sessions?.pValue).toBeCloseTo(0.0995327192661962, 12);
    expect(found.sessions?.exact).toBe(true);
    expect(found).toMatchObject({ correct: 13, judgments: 24 });
    expect(whats(found.caveats)).not.toContain("sessions-differ");
  });
  test("12 of 12 and 4 of 12 differ, and it is told", () => {
    expect(whats(analyse(study(12, 4), "1").caveats)).toContain("sessions-differ");
  });
  test("one session has no such check", () => {
    expect(choice(analyse(recordByHand({}, answered(["AAB"], [3], 7, 12)), "1")).sessions).toBeNull();
  });
});

describe("a study that stopped early", () => {
  const early = (correct: number) => {
    const orders = ordersFor("triangle");
    const places = [3, 2, 1, 3, 2, 1];
    const record = recordByHand(
      { people: 30, stopping: { rule: "looks", at: [17] } },
      [...answered(orders, places, correct, 17), ...answered(orders, places, 2, 13)].slice(0, 20),
    );
    const looks = [
      {
        event: "77777777-7777-4777-8777-777777777777",
        at: "2026-05-03T11:00:00.000Z",
        trays: Array.from({ length: 17 }, (_, at) => at + 1),
        said: correct >= 11 ? ("stop" as const) : ("go-on" as const),
      },
    ];
    return { ...record, looks };
  };
  test("11 of 17 at the locked look: the answers within it decide, the three after it are told", () => {
    const found = choice(analyse(early(11), "1"));
    expect(found).toMatchObject({
      correct: 11,
      judgments: 17,
      outcome: "reached",
      stopping: { early: true, after: 3 },
    });
    // 11 of 17 at p0 = 1/3, as printed in a blog on sequential triangle tests (seen): 0.00800819
    expect(found.pValue).toBeCloseTo(0.00800819, 8);
    expect(found.caveats).toContainEqual({ what: "stopped-early", judgments: 17, planned: 30 });
    expect(found.caveats).toContainEqual({ what: "after-the-stop", answers: 3 });
    expect(whats(found.caveats)).not.toContain("below-plan");
  });
  test("5 of 17: it goes on, and all answers count", () => {
    const found = choice(analyse(early(5), "1"));
    expect(found).toMatchObject({ judgments: 20, correct: 7, stopping: { early: false, after: 0 } });
    expect(found.caveats).toContainEqual({ what: "below-plan", planned: 30, answered: 20 });
  });
});

test("naming the products the other way round turns letters and nothing else, in every choice method", () => {
  for (const [method, orders, places, plan] of [
    ["duo-trio", ["A:AB", "A:BA", "B:AB", "B:BA"], [1, 2, 2, 1], {}],
    ["tetrad", ordersFor("tetrad"), [2, 3, 4, 4, 3, 2], {}],
    ["three-alternative", ["BAA", "ABA", "AAB"], [1, 2, 3], { properties: [property("x")] }],
    ["paired-difference", ["AB", "BA"], [2, 1], { properties: [property("x")] }],
  ] as const) {
    const change: Partial<Plan> = { method, ...("properties" in plan ? { properties: [...plan.properties] } : {}) };
    const record = recordByHand(change, answered(orders, places, 14, 24));
    const swapped = { ...record, plan: { ...record.plan, products: [...record.plan.products].reverse() } };
    const [one, other] = [choice(analyse(record, "1")), choice(analyse(swapped, "1"))];
    expect([other.correct, other.pValue, other.oddPositions]).toEqual([one.correct, one.pValue, one.oddPositions]);
    expect(one.study?.products.map(({ name }) => name)).toEqual(["current", "new"]);
  }
});
