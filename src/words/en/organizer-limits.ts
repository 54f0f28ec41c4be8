import type { CookingLimit, LimitTable, OutLimit, SafetyLimit } from "../../model/safety-limit.ts";
import { listed, organizer, plural } from "./organizer.ts";
import { figure } from "./organizer-figures.ts";

/** Words of the limits of temperature and time: the kitchen's table, and what a plan takes of it. */
const { nb } = organizer;

const degrees = (celsius: number): string => `${figure(celsius)}${nb}\u00b0C`;

/** "2 hours", "90 minutes" */
const span = (minutes: number): string =>
  minutes % 60 === 0 ? plural(minutes / 60, "hour", "hours") : plural(minutes, "minute", "minutes");
const seconds = (held: number): string =>
  held >= 120 && held % 60 === 0 ? `${held / 60}${nb}minutes` : `${held}${nb}s`;

const cookingText = ({ celsius, heldSeconds, restMinutes }: CookingLimit): string =>
  [
    `${degrees(celsius)} at the core`,
    heldSeconds > 0 ? ` for ${seconds(heldSeconds)}` : "",
    restMinutes > 0 ? `, then a rest of ${plural(restMinutes, "minute", "minutes")}` : "",
  ].join("");

const froms = { either: "Out of temperature", hot: "Taken from hot holding", cold: "Taken from cold holding" } as const;

function outText({ from, minutes, airAtMost, foodAtMost }: OutLimit): string {
  const conditions = [
    airAtMost === null ? "" : `where the air is at most ${degrees(airAtMost)}`,
    foodAtMost === null ? "" : `if the food never gets above ${degrees(foodAtMost)}`,
  ].filter(Boolean);
  const rule = `${froms[from]}: at most ${span(minutes)}`;
  // a row without a condition stands beside one that has it, and is not to read as its contradiction
  if (conditions.length === 0) return from === "either" ? `${rule}, however warm the air is` : rule;
  return `${rule} ${listed(conditions)}`;
}

/** One limit in one phrase, without its food. */
function limitText(limit: SafetyLimit): string {
  switch (limit.kind) {
    case "cooking":
      return cookingText(limit);
    case "hot-holding":
      return `Held hot: ${degrees(limit.celsius)} or more`;
    case "cold-holding":
      return `Held cold: ${degrees(limit.celsius)} or less`;
    case "out":
      return outText(limit);
  }
}

export const limitWords = {
  heading: "Limits of temperature and time",
  /** Of a row: where it comes from, and whether this kitchen looked it up. */
  origin: (source: string, checked: string) =>
    `${source.trim() || "no source given"}; ${checked === "" ? "not checked by this kitchen yet" : `checked ${organizer.day(`${checked}T12:00:00Z`)}`}`,
  text: limitText,
  food: (food: string) => food.trim() || "Food without a name",
  /** Rows of one food are alternatives. */
  either: (rows: readonly CookingLimit[]) => rows.map(cookingText).join("; or "),

  kitchen: {
    lead: "Examples that others publish. Local codes prevail: ask whoever is licensed in this kitchen, put in your own figures, and say when you checked them.",
    lead2:
      "A plan takes over what applies to its food. Later changes here change no plan. Rows of cooking with the same food are alternatives: any of them will do. Of holding the strictest row counts; of time the longest whose condition is known to hold, so change or remove a row to be stricter.",
    fields: {
      food: "Food",
      celsius: "Temperature",
      heldSeconds: "Held for at least",
      restMinutes: "Rest afterward",
      minutes: "At most",
      airAtMost: "Where the air is at most",
      foodAtMost: "If the food never gets above",
      from: "Held before at",
      source: "Where it comes from",
      checked: "Checked by this kitchen on",
      checkedHint: "A change of the row empties it.",
    },
    froms: [
      { value: "either", label: "either" },
      { value: "hot", label: "hot" },
      { value: "cold", label: "cold" },
    ] as const,
    units: { celsius: "\u00b0C", seconds: "seconds", minutes: "minutes" },
    add: {
      cooking: "Add a limit of cooking",
      "hot-holding": "Add one of holding hot",
      "cold-holding": "Add one of holding cold",
      out: "Add one of time",
    } satisfies Record<SafetyLimit["kind"], string>,
    remove: "Remove this limit",
    removed: "Removed a limit from the table.",
    full: (most: number) => `The table holds ${most}${nb}limits. Remove one to add another.`,
    none: "No limit is set.",
    checkAll: "All rows checked today",
    checkedAll: "All rows are marked as checked today.",
    begin: "Replace the table:",
    tables: {
      consumer: "with what US authorities advise consumers",
      "food-service": "with US food-service figures",
    } satisfies Record<LimitTable, string>,
    replaced: "The table was replaced.",
  },

  plan: {
    heading: "Temperatures and times",
    law: "Limits come from the kitchen\u2019s table. Local codes prevail: ask whoever is licensed.",
    cooking: "How hot must the core get?",
    uncooked: "Nothing here has to be cooked through",
    uncookedHint: "such as bread, cheese, fruit",
    below:
      "Serve no batch below its limit before a reading passes. A limit of holding has no exception; one of cooking has, for food that is undercooked by design.",
    holding: "Holding and time out of temperature",
    noHolding: "No limit of holding or of time is in this plan.",
    unchecked: (count: number) =>
      `${plural(count, "of these limits was", "of these limits were")} not checked by this kitchen yet.`,
    toKitchen: "The kitchen\u2019s table",
    changed: "The kitchen\u2019s table is another one since.",
    take: "Take over the table as it is now",
    taken: "Took over the kitchen\u2019s limits.",
    between: (celsius: number, hot: number, cold: number | null) =>
      `Served at ${degrees(celsius)}: below ${degrees(hot)}${cold === null ? "" : ` and above ${degrees(cold)}`}, so only the time out of temperature keeps it safe. Count it from the moment it leaves its holding.`,
    responsible: "Who answers for serving it?",
    responsibleHint:
      "By name. Without it the plan is not locked. A batch below a limit of cooking is served in this person\u2019s name alone.",
    summary: (rows: readonly SafetyLimit[]) => rows.map(limitText).join("; "),
  },
};
