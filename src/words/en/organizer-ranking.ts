import type { Plan } from "../../model/plan.ts";
import { organizer } from "./organizer.ts";

/** Words of the ranking in a plan: what samples are put in order of, and the order that was predicted. */
const { nb } = organizer;

const quoted = (text: string): string => `\u201c${text.trim()}\u201d`;
const sentence = (typed: string): string => (/[.?!]$/.test(typed.trim()) ? typed.trim() : `${typed.trim()}.`);

/** Names of the products in the predicted order, least first; empty where none was predicted. */
const predictedNames = ({ products, ranking: { predicted } }: Plan): string[] =>
  predicted.map((id) => products.find((product) => product.id === id)?.name.trim() || "a product not named yet");

export const ranking = {
  heading: "What the samples are put in order of",
  name: "Name for the report",
  nameHint: "\u201cJuiciness\u201d",
  least: "Words for the least, the first place",
  leastHint: "\u201cleast juicy\u201d",
  most: "Words for the most, the last place",
  mostHint: "\u201cmost juicy\u201d",
  definition: "What it means here, for the panelist",
  definitionHint: "One tap away on the tablet. \u201cJuice that is felt in the mouth while chewing.\u201d",
  liking: "The order is one of liking",
  likingHint:
    "The report then says whose liking it is: only people recruited among those who eat the food speak for customers.",
  predictedElsewhere: "Part 4, where the products are, asks whether an order was predicted.",
  pickHeading: "From the kitchen\u2019s list",
  pick: "Use this",
  pickOf: (name: string) => `: ${name}`,
  /** Ends from the word of the kitchen's list. */
  ends: (adjective: string): { least: string; most: string } => ({
    least: `least ${adjective}`,
    most: `most ${adjective}`,
  }),

  predicted: "Did anybody predict the order?",
  predictedHint: "Fixed at lock. No tablet and no panelist is told.",
  predictedOptions: [
    { value: "no", label: "No", hint: "any difference between the products counts" },
    { value: "yes", label: "Yes, the whole order", hint: "then the study asks whether the panel follows it" },
  ] as const,
  predictedOrder: "The order that was predicted, from least to most",
  needsProducts: "Name the products first.",
  unnamed: (at: number) => `Product ${String.fromCodePoint(65 + at)}, not named yet`,
  earlier: "Toward the least",
  later: "Toward the most",
  moveOf: (name: string) => `: ${name}`,
  moved: (name: string, place: number, of: number) => `${name} is now place ${place} of ${of}.`,

  usual: `To say which food has more of a property, 12${nb}to${nb}15 practiced people are usual; to say what is liked better, at least${nb}60 of each kind of people.`,
  source: `Source: ISO${nb}8587:2006, clauses 6.2 and 6.3.`,
  noPower: "How likely a difference is found cannot be told: this version has no such figure for a ranking.",
  summary: (plan: Plan) => {
    const { name, least, most } = plan.ranking;
    const ends = least.trim() && most.trim() ? `, from ${quoted(least)} to ${quoted(most)}` : "";
    const order = plan.ranking.predicted.length > 0 ? "the order was predicted" : "no order was predicted";
    return `Ranking by ${name.trim() || "a property without a name"}${ends}; ${order}`;
  },
  locked: {
    term: "Put in order of",
    of: ({ ranking: { name, least, most, definition, liking } }: Plan) =>
      `${name.trim()}${liking ? " (liking)" : ""}, from ${quoted(least)} to ${quoted(most)}. ${definition.trim() === "" ? "" : sentence(definition)}`.trim(),
    predicted: "Predicted order",
    order: (plan: Plan) =>
      plan.ranking.predicted.length === 0
        ? "None was predicted."
        : `From least to most: ${predictedNames(plan).map(quoted).join(", then ")}.`,
  },
};
