import { type CookingLimit, isCooking, type OutLimit, type SafetyLimit } from "./safety-limit.ts";

/** Readings held against a table of limits. Pure; nothing here knows a clock or a product. */

/** Of a probe in the core: degrees Celsius, how long it stayed at that, and how long the food rested afterward. */
export type CoreReading = { celsius: number; heldSeconds: number; restMinutes: number };

/** What a check of the core says: it is met, it is not (with the rows of each food that none of its rows was met of), or no row applies. */
export type CoreVerdict = { verdict: "met" | "no-limit" } | { verdict: "below"; rows: CookingLimit[] };

const meets = (reading: CoreReading, row: CookingLimit): boolean =>
  reading.celsius >= row.celsius && reading.heldSeconds >= row.heldSeconds && reading.restMinutes >= row.restMinutes;

/** The name of a food, for telling its rows from those of others. */
const named = ({ food }: CookingLimit): string => food.trim().toLowerCase();

/** Holds a core reading against the cooking limits: of each food named, one row has to be met. */
export function checkCore(limits: readonly SafetyLimit[], reading: CoreReading): CoreVerdict {
  const rows = limits.filter(isCooking);
  if (rows.length === 0) return { verdict: "no-limit" };
  const met = new Set(rows.filter((row) => meets(reading, row)).map(named));
  const below = rows.filter((row) => !met.has(named(row)));
  return below.length === 0 ? { verdict: "met" } : { verdict: "below", rows: below };
}

export type HoldingVerdict = { verdict: "no-limit" } | { verdict: "met" | "past"; celsius: number };

/** Holds a temperature against the strictest limit of holding, hot or cold. `past`: too cold to be hot, or too warm to be cold. */
export function checkHolding(limits: readonly SafetyLimit[], held: "hot" | "cold", celsius: number): HoldingVerdict {
  const kind = held === "hot" ? "hot-holding" : "cold-holding";
  const degrees = limits.flatMap((limit) => (limit.kind === kind && "celsius" in limit ? [limit.celsius] : []));
  if (degrees.length === 0) return { verdict: "no-limit" };
  const strictest = held === "hot" ? Math.max(...degrees) : Math.min(...degrees);
  const met = held === "hot" ? celsius >= strictest : celsius <= strictest;
  return { verdict: met ? "met" : "past", celsius: strictest };
}

/** Food out of temperature: what it was held at before, for how many minutes it is out, and what is known of air and food. */
export type OutReading = {
  from: "hot" | "cold";
  minutes: number;
  /** Degrees Celsius; null where nobody measured. What is not known meets no condition. */
  airCelsius: number | null;
  warmestFoodCelsius: number | null;
};

export type OutVerdict =
  | { verdict: "no-limit" }
  /** minutesLeft: until the limit; 0 or less means that it is reached. */
  | { verdict: "met" | "past"; limit: OutLimit; minutesLeft: number };

const within = (celsius: number | null, most: number | null): boolean =>
  most === null || (celsius !== null && celsius <= most);

/**
 * Holds the time out of temperature against the longest that any row allows whose conditions hold. Reaching the limit is
 * past it. No row that applies: no-limit, and nothing allows serving such food.
 */
export function checkOut(limits: readonly SafetyLimit[], reading: OutReading): OutVerdict {
  const [limit] = limits
    .filter((row): row is OutLimit => row.kind === "out")
    .filter(({ from }) => from === "either" || from === reading.from)
    .filter((row) => within(reading.airCelsius, row.airAtMost) && within(reading.warmestFoodCelsius, row.foodAtMost))
    .sort((a, b) => b.minutes - a.minutes);
  if (!limit) return { verdict: "no-limit" };
  const minutesLeft = limit.minutes - reading.minutes;
  return { verdict: minutesLeft > 0 ? "met" : "past", limit, minutesLeft };
}
