import { describe, expect, test } from "vitest";
import { checkCore, checkHolding, checkOut } from "../../src/model/safety-check.ts";
import { limitTables, type SafetyLimit, safetyLimit, usualLimits } from "../../src/model/safety-limit.ts";
import { read } from "../../src/model/schema.ts";

/**
 * Figures as published: USDA chart of safe temperatures (poultry 165 °F, ground meat 160 °F, whole cuts 145 °F with 3 min
 * rest), the two-hour rule, and the US Food Code as county and state pages give it. None was read whole; the Celsius
 * values are those of these pages, not rounded here.
 */
const only = (table: readonly SafetyLimit[], food: string): SafetyLimit[] =>
  table.filter((limit) => limit.kind !== "cooking" || limit.food.startsWith(food));
const probe = (celsius: number, heldSeconds = 0, restMinutes = 0) => ({ celsius, heldSeconds, restMinutes });
const { consumer, "food-service": service } = limitTables;

test.each([...consumer, ...service])("a row is one that a log can hold, and says where it comes from: %j", (row) => {
  expect(read(safetyLimit, row)).toEqual(row);
  expect(row.source).not.toBe("");
});

describe("the core", () => {
  test.each([
    ["poultry of the demo that read 71 °C first", consumer, "Poultry", probe(71), "below"],
    ["and 76 °C after it went back", consumer, "Poultry", probe(76), "met"],
    ["poultry at the limit", consumer, "Poultry", probe(74), "met"],
    ["just below it", consumer, "Poultry", probe(73.9), "below"],
    ["ground meat as consumers are advised", consumer, "Ground", probe(71), "met"],
    ["a whole cut without its rest", consumer, "Whole", probe(63), "below"],
    ["a whole cut with it", consumer, "Whole", probe(63, 0, 3), "met"],
    ["ground meat in food service, not long enough", service, "Ground", probe(68, 16), "below"],
    ["ground meat in food service", service, "Ground", probe(68, 17), "met"],
    ["a roast, low and slow", service, "Whole roasts", probe(54, 112 * 60), "met"],
    ["a roast, low and a minute short", service, "Whole roasts", probe(54, 111 * 60), "below"],
    ["a roast, hot and fast", service, "Whole roasts", probe(63, 15), "met"],
  ])("%s", (_, table, food, reading, verdict) => {
    expect(checkCore(only(table, food), reading).verdict).toBe(verdict);
  });

  test("of two foods both have to be met, and only the one that is not is named", () => {
    const two = [...only(consumer, "Poultry"), ...only(consumer, "Fish")];
    const verdict = checkCore(two, probe(70));
    expect(verdict.verdict === "below" && verdict.rows.map(({ celsius }) => celsius)).toEqual([74]);
  });

  test("no limit of cooking is no verdict", () => {
    expect(checkCore(only(consumer, "none"), probe(100))).toEqual({ verdict: "no-limit" });
  });
});

describe("holding", () => {
  test.each([
    [consumer, "hot", 60, "met"],
    [consumer, "hot", 59.9, "past"],
    [consumer, "cold", 4, "met"],
    [consumer, "cold", 4.1, "past"],
    [service, "hot", 57, "met"],
    [service, "cold", 5, "met"],
  ] as const)("%# %s %d", (table, held, celsius, verdict) => {
    expect(checkHolding(table, held, celsius).verdict).toBe(verdict);
  });

  test("of two limits the stricter one counts, and without any there is no verdict", () => {
    const rule = { kind: "hot-holding" as const, celsius: 63, source: "rule of the house", checked: "2026-05-03" };
    expect(checkHolding([...consumer, rule], "hot", 61)).toEqual({ verdict: "past", celsius: 63 });
    expect(checkHolding([], "hot", 90)).toEqual({ verdict: "no-limit" });
  });
});

describe("out of temperature", () => {
  const out = (minutes: number, air: number | null, from: "hot" | "cold" = "hot", food: number | null = null) => ({
    ...{ from, minutes, airCelsius: air, warmestFoodCelsius: food },
  });
  test.each([
    ["two hours in a cool room", consumer, out(119, 22), "met", 1],
    ["reaching it is past it", consumer, out(120, 22), "past", 0],
    ["one hour above 32 °C", consumer, out(60, 33), "past", 0],
    ["at 32 °C still two", consumer, out(60, 32), "met", 60],
    ["air that nobody measured gives the stricter one", consumer, out(61, null), "past", -1],
    ["food service from hot: four hours", service, out(239, null), "met", 1],
    ["food service from cold: six hours while it stays at 21 °C", service, out(300, null, "cold", 21), "met", 60],
  ])("%s", (_, table, reading, verdict, minutesLeft) => {
    expect(checkOut(table, reading)).toMatchObject({ verdict, minutesLeft });
  });

  test("food from cold that got warmer, or that nobody measured, has no row that allows it", () => {
    expect(checkOut(service, out(10, null, "cold", 22))).toEqual({ verdict: "no-limit" });
    expect(checkOut(service, out(10, null, "cold"))).toEqual({ verdict: "no-limit" });
  });
});

test("what a kitchen has that has said nothing is the stricter table", () => {
  expect(usualLimits()).toEqual(consumer);
});
