import * as z from "zod/mini";
import { count, line } from "./schema.ts";

/**
 * Limits of temperature and time, each with where it comes from and the day on which this kitchen checked it. Examples at
 * best: local codes prevail, and whoever is licensed decides. Degrees are Celsius.
 */

const degrees = z.number().check(z.minimum(-40), z.maximum(130));
const minutes = z.number().check(z.int(), z.minimum(1), z.maximum(2880));

const origin = {
  source: line,
  /** The day on which this kitchen last checked the row, as 2026-05-03; empty while nobody has. */
  checked: z.string().check(z.regex(/^(\d{4}-\d\d-\d\d)?$/, "a day like 2026-05-03")),
};

/** The core is at least so hot for so long; the food then rests. Rows of one food are alternatives: any of them will do. */
const cooking = z.strictObject({
  kind: z.literal("cooking"),
  food: line,
  celsius: degrees,
  heldSeconds: count,
  restMinutes: count,
  ...origin,
});
/** Held hot at no less, held cold at no more. */
const hot = z.strictObject({ kind: z.literal("hot-holding"), celsius: degrees, ...origin });
const cold = z.strictObject({ kind: z.literal("cold-holding"), celsius: degrees, ...origin });
/** Out of temperature for no longer. A row with a condition counts only where the condition is known to hold. */
const out = z.strictObject({
  kind: z.literal("out"),
  /** What the food was held at before: only hot, only cold, or whichever. */
  from: z.enum(["either", "hot", "cold"]),
  minutes,
  /** The air around it is no warmer; null: however warm it is. */
  airAtMost: z.nullable(degrees),
  /** The food itself never gets warmer; null: however warm it gets. */
  foodAtMost: z.nullable(degrees),
  ...origin,
});

export const safetyLimit = z.discriminatedUnion("kind", [cooking, hot, cold, out]);
export type SafetyLimit = z.infer<typeof safetyLimit>;
export type CookingLimit = z.infer<typeof cooking>;
export type OutLimit = z.infer<typeof out>;

export const isCooking = (limit: SafetyLimit): limit is CookingLimit => limit.kind === "cooking";
export const isHolding = (limit: SafetyLimit): limit is Exclude<SafetyLimit, CookingLimit> => !isCooking(limit);

const unchecked = { checked: "" };
const cook = (source: string, food: string, celsius: number, heldSeconds: number, restMinutes = 0): CookingLimit => ({
  ...{ kind: "cooking", food, celsius, heldSeconds, restMinutes, source, ...unchecked },
});
const away = (source: string, rule: Pick<OutLimit, "from" | "minutes"> & Partial<OutLimit>): OutLimit => ({
  ...{ kind: "out", airAtMost: null, foodAtMost: null, ...rule, source, ...unchecked },
});

const poultry = "Poultry, stuffed food, reheated leftovers";
const ground = "Ground meat other than poultry";
const whole = "Whole cuts of beef, pork, veal, lamb";
const fish = "Fish";

const chart = "USDA chart of safe temperatures, as reproduced by others";
const consumer = "US consumer page on high-risk foods: the two-hour rule";

/** What US authorities advise consumers: the stricter of the two tables that a kitchen may begin with. */
const consumerAdvice: readonly SafetyLimit[] = [
  cook(chart, poultry, 74, 0),
  cook(chart, ground, 71, 0),
  cook(chart, whole, 63, 0, 3),
  cook(chart, fish, 63, 0),
  { kind: "hot-holding", celsius: 60, source: consumer, ...unchecked },
  { kind: "cold-holding", celsius: 4, source: consumer, ...unchecked },
  away(consumer, { from: "either", minutes: 120, airAtMost: 32 }),
  away(consumer, { from: "either", minutes: 60 }),
];

const manual = "North Carolina food-safety manual, after the US Food Code";
const model = "US model Food Code, as given by county and state pages";
const written = "Minnesota Rules 4626.0408; takes a mark on the food and a written procedure";

/** What US food service works by, after the model Food Code. */
const foodService: readonly SafetyLimit[] = [
  cook(manual, poultry, 74, 0),
  cook(manual, ground, 68, 17),
  cook(manual, whole, 63, 15),
  cook(manual, "Whole roasts", 63, 15),
  cook(manual, "Whole roasts", 54, 112 * 60),
  cook(manual, fish, 63, 15),
  cook(manual, "Minced fish", 68, 15),
  { kind: "hot-holding", celsius: 57, source: model, ...unchecked },
  { kind: "cold-holding", celsius: 5, source: model, ...unchecked },
  away(written, { from: "hot", minutes: 240 }),
  away(written, { from: "cold", minutes: 360, foodAtMost: 21 }),
];

/**
 * Tables to begin with. Figures and their sources are those of the project's pages on the trade; each page was seen as an
 * excerpt, none of the codes was read whole.
 */
export const limitTables = { consumer: consumerAdvice, "food-service": foodService } as const;
export type LimitTable = keyof typeof limitTables;

/** What a kitchen has that has said nothing of limits. */
export const usualLimits = (): SafetyLimit[] => [...consumerAdvice];
