import { describe, expect, test } from "vitest";
import { markedChoices, markedKinds, markedPairs, ordersServed, plannedSessions } from "../../src/analysis/marking.ts";
import type { Plan } from "../../src/model/plan.ts";
import { problemOf } from "../problem-of.ts";
import { property, recordByHand, type TrayByHand } from "./method-records.ts";
import { current } from "./scenario.ts";

/** Places of the right sample by order: from what the methods are (a tetrad: partner of the first). */
const right: [Plan["method"], Record<string, number>, Partial<Plan>][] = [
  ["triangle", { AAB: 3, ABA: 2, BAA: 1, BBA: 3, BAB: 2, ABB: 1 }, {}],
  ["duo-trio", { "A:AB": 1, "A:BA": 2, "B:AB": 2, "B:BA": 1 }, {}],
  ["paired-difference", { AB: 2, BA: 1 }, { properties: [property("juice")] }],
  ["paired-difference", { AB: 1, BA: 2 }, { properties: [property("juice", { expected: current })] }],
  ["three-alternative", { BAA: 1, ABA: 2, AAB: 3 }, { properties: [property("juice")] }],
  ["three-alternative", { ABB: 1, BAB: 2, BBA: 3 }, { properties: [property("juice", { expected: current })] }],
  ["tetrad", { AABB: 2, ABAB: 3, ABBA: 4, BAAB: 4, BABA: 3, BBAA: 2 }, {}],
];

describe.each(right)("%s, right places %j", (method, places, change) => {
  const orders = Object.keys(places);
  const partner = method === "tetrad";
  test("each place of each order, marked by the opened key", () => {
    for (const order of orders) {
      const samples = order.split(":").at(-1)?.length ?? 0;
      const all = Array.from({ length: samples }, (_, at) => at + 1).slice(partner ? 1 : 0);
      const record = recordByHand(
        { ...change, method },
        all.map((place) => ({ order, answers: [place] })),
      );
      const marked = markedChoices(record);
      expect(marked.map(({ correct }) => correct)).toEqual(all.map((place) => place === places[order]));
      expect(marked.every((one) => one.order === order && one.oddPosition === places[order])).toBe(true);
    }
  });
  test("orders come from what is on the trays, not from the label in the key", () => {
    const record = recordByHand(
      { ...change, method },
      orders.map((order) => ({ order, answers: [partner ? 2 : 1] })),
    );
    const trays = record.opened.key.trays.map((tray) => ({ ...tray, order: "??" }));
    const relabeled = { ...record, opened: { ...record.opened, key: { ...record.opened.key, trays } } };
    expect(markedChoices(relabeled)).toEqual(markedChoices(record));
    expect(ordersServed(relabeled, [])).toEqual([...new Set(orders)].sort());
  });
});

test("a second question is marked by its own property", () => {
  const properties = [property("juice"), property("firmness", { expected: current })];
  const record = recordByHand({ method: "paired-difference", properties }, [
    { order: "AB", answers: [2, 2] },
    { order: "BA", answers: [1, 2] },
  ]);
  expect(markedChoices(record, 1).map(({ correct }) => correct)).toEqual([true, true]);
  expect(markedChoices(record, 2).map(({ correct }) => correct)).toEqual([false, true]);
});

describe("two products of which neither is right", () => {
  const record = recordByHand({ method: "paired-preference", noPreference: "dropped" }, [
    { order: "AB", answers: [1] },
    { order: "BA", answers: [1] },
    { order: "BA", answers: ["none"] },
  ]);
  test("first, second and neither, with the place of what was picked", () => {
    expect(markedPairs(record).map(({ picked, place }) => [picked, place])).toEqual([
      ["first", 1],
      ["second", 1],
      ["none", null],
    ]);
  });
});

describe("two kinds of trays", () => {
  const told = (method: "same-different" | "a-not-a", trays: readonly TrayByHand[]) =>
    markedKinds(recordByHand({ method }, trays)).map(({ unlike, told: said }) => [unlike, said]);
  test("same-different: unlike where two products were served", () => {
    const answers = ["different", "same", "different", "same"] as const;
    expect(
      told(
        "same-different",
        ["AB", "BA", "AA", "BB"].map((order, at) => ({ order, answers: [answers[at] ?? ""] })),
      ),
    ).toEqual([
      [true, true],
      [true, false],
      [false, true],
      [false, false],
    ]);
  });
  test("A-not-A: unlike where the sample was not what the reference cup held, whichever product that was", () => {
    const orders = ["A:A", "A:B", "B:B", "B:A"];
    expect(
      told(
        "a-not-a",
        orders.map((order) => ({ order, answers: ["not-a"] })),
      ),
    ).toEqual([
      [false, true],
      [true, true],
      [false, true],
      [true, true],
    ]);
  });
});

describe("a record that contradicts itself", () => {
  const code = (method: Plan["method"], tray: TrayByHand, change: Partial<Plan> = {}) => {
    const record = recordByHand({ method, ...change }, [tray]);
    const mark =
      method === "same-different" || method === "a-not-a"
        ? markedKinds
        : method === "paired-preference"
          ? markedPairs
          : markedChoices;
    return problemOf(() => mark(record)).code;
  };
  test.each([
    ["triangle", "AAA"],
    ["triangle", "AB"],
    ["duo-trio", "AB"],
    ["duo-trio", "A:AA"],
    ["tetrad", "AAAB"],
    ["tetrad", "AB"],
    ["paired-preference", "AA"],
    ["same-different", "A"],
    ["a-not-a", "A"],
    ["a-not-a", "A:AB"],
  ] as const)("%s: a tray with %s is none of its orders", (method, order) => {
    expect(code(method, { order, answers: [1] })).toBe("analysis/not-its-order");
  });
  test("a directional choice whose property names no product, or whose tray holds two of it", () => {
    const properties = [property("juice", { expected: null })];
    expect(code("paired-difference", { order: "AB", answers: [1] }, { properties })).toBe("analysis/not-its-order");
    const named = [property("juice")];
    expect(code("three-alternative", { order: "ABB", answers: [1] }, { properties: named })).toBe(
      "analysis/not-its-order",
    );
  });
  test("an answer that the ballot does not offer", () => {
    expect(code("tetrad", { order: "AABB", answers: [1] })).toBe("analysis/answer-unknown");
    expect(code("same-different", { order: "AB", answers: ["not-a"] })).toBe("analysis/answer-unknown");
    expect(code("a-not-a", { order: "A:B", answers: [1] })).toBe("analysis/answer-unknown");
    expect(code("triangle", { order: "AAB", answers: ["same"] })).toBe("analysis/code-not-on-tray");
  });
});

test("spaces around the name of a session make no other session", () => {
  const record = recordByHand({}, [{ order: "AAB" }]);
  const [wave] = record.plan.waves;
  if (!wave) throw new Error("the scenario has waves");
  const waves = ["Monday", "Monday ", "Tuesday"].map((session) => ({ ...wave, session }));
  const sessions = plannedSessions({ ...record, plan: { ...record.plan, waves } });
  expect(sessions.names).toEqual(["Monday", "Tuesday"]);
  expect(sessions.of({ wave: 2 })).toBe("Monday");
});
