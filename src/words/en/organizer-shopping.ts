import type { Product } from "../../model/plan.ts";
import { organizer, plural } from "./organizer.ts";
import { figure } from "./organizer-figures.ts";
import { named } from "./phrases.ts";

const { nb } = organizer;

/** Whole grams, up: too little cannot be served. A whole number that arithmetic missed by a hair stays. */
const wholeGrams = (grams: number): string => `${Math.ceil(grams - 1e-6)}${nb}g`;

/** What a reckoning from portions to raw grams says. Grams are null where a loss was not named. */
type Reckoned = {
  portions: number;
  /** Of these, for spare trays. */
  spare: number;
  portion: number;
  back: { served: number; cooked: number; raw: number | null; bought: number | null };
  product: Pick<Product, "cookLoss" | "cookLossFrom" | "trimLoss" | "cookedOver">;
};

/** From portions back to raw grams, each percentage with its base and its source. */
export const rawWords = {
  grams: (grams: number | null) => (grams === null ? "\u2013" : wholeGrams(grams)),
  reckoned: ({ portions, spare, portion, back, product }: Reckoned): string => {
    const { cookLoss = null, cookLossFrom = "", trimLoss = null, cookedOver = null } = product;
    const more = cookedOver !== null && cookedOver > 0;
    const served = `${plural(portions, "portion", "portions")}${spare > 0 ? ` (up to ${spare} of them for spare trays)` : ""} \u00d7 ${figure(portion)}${nb}g = ${figure(back.served)}${nb}g ${more ? "served" : "cooked"}`;
    const parts = [
      served,
      ...(more ? [`and ${figure(cookedOver)}${nb}% of that over and above it: ${wholeGrams(back.cooked)} cooked`] : []),
      ...(back.raw === null
        ? ["no loss in cooking is named, so raw grams are not worked out"]
        : [
            `at a cook loss of ${figure(cookLoss ?? 0)}${nb}% of the raw mass ${wholeGrams(back.raw)} raw (${cookLossFrom.trim() || "assumed, no source named"})`,
          ]),
      ...(back.raw === null
        ? []
        : back.bought === null
          ? ["no trimming loss is named, so what to buy is not worked out"]
          : [
              `at ${figure(trimLoss ?? 0)}${nb}% of the bought mass trimmed off (assumed) ${wholeGrams(back.bought)} to buy`,
            ]),
    ];
    return `${parts.join("; ")}.`;
  },
};

/** The page on which a lead makes the list before the plan is locked. */
export const shoppingWords = {
  link: "Shopping list",
  linkHint: "What to buy and prepare for each wave, before anything is locked.",
  heading: "Shopping and preparation",
  back: "Back to the plan",
  lead: "As the plan stands now. It changes with the plan until that is locked; from then on it is one of the papers.",
  losses: "From raw to served",
  lossesHint:
    "For raw grams the list needs what cooking takes away, and for what to buy also what is trimmed off. What is left empty is not worked out.",
  product: (name: string, at: number) => name.trim() || `Product ${at + 1}`,
  cookLoss: "Lost in cooking",
  ofRaw: "% of the raw mass",
  from: "Where that comes from",
  fromHint: "For instance: a guess, or an earlier batch.",
  trimLoss: "Trimmed off",
  ofBought: "% of what is bought",
  over: "Cooked beyond what is served",
  overHint: "Ends, probes, breakage. Spare trays are reckoned with already.",
  ofServed: "% of the served grams",
  take: "Take the loss from a weighing ledger",
  takeNone: "typed, from no ledger",
  taken: (claim: string, measure: string, product: string, step: string, batches: number) =>
    `${product}, raw to ${step}, ${batches === 1 ? "1 batch" : `mean of ${batches} batches`}; ledger of ${named(claim)}${measure ? `, ${measure}` : ""}`,
  takenLabel: (percent: number, from: string) => `${figure(percent)}${nb}%: ${from}`,
  notYet: "The list cannot be made yet.",
};
