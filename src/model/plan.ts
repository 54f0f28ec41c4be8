import * as z from "zod/mini";
import { allergens } from "./allergen.ts";
import { attribute, cautions, lineLengths } from "./attribute.ts";
import { chew, usualChew } from "./chew-plan.ts";
import { plannable } from "./method.ts";
import { advised, asked, nothingAsked, pace, usualPace } from "./plan-question.ts";
import { raw } from "./raw.ts";
import { safetyLimit } from "./safety-limit.ts";
import { code, count, id, line, paragraph } from "./schema.ts";
import { serving } from "./serving.ts";

/** Something is always left. */
const lostPercent = z.number().check(z.minimum(0), z.maximum(95));

const product = z.strictObject({
  id,
  name: line,
  /** Everything done to it up to the cup, so that a reader sees that only the treatment differs. */
  preparation: paragraph,
  /** For shopping only; what was not said is not reckoned with. Cooking: percent of the raw mass that goes into the heat. */
  cookLoss: z.optional(z.nullable(lostPercent)),
  /** Where that number comes from: "a guess", "ledger of the oven claim". */
  cookLossFrom: z.optional(line),
  /** Trimming: percent of what is bought, before anything is cooked. */
  trimLoss: z.optional(z.nullable(lostPercent)),
  /** Percent of the served grams that is cooked over and above them: ends, probes, breakage. */
  cookedOver: z.optional(z.nullable(z.number().check(z.minimum(0), z.maximum(300)))),
});
export type Product = z.infer<typeof product>;

/** What is eaten or handled in a sitting and can carry an allergen: every product, warm-up, cleanser, carrier. */
const declaration = z.strictObject({
  /** A product's id, or "warm-up", "cleanser", "carrier". */
  of: z.string().check(z.maxLength(64)),
  contains: z.array(z.enum(allergens)),
  mayContain: z.array(z.enum(allergens)),
  other: line,
  /** Somebody said that it holds none of the list: an empty list alone says only that nobody has ticked anything. */
  none: z.boolean(),
});
export type Declaration = z.infer<typeof declaration>;

const wave = z.strictObject({
  id,
  /** When it is to begin, as the kitchen writes it ("11:15"). */
  starts: line,
  people: count,
  /** Sessions or sites that were planned together: waves of one name belong together; all empty where there is but one. */
  session: z._default(line, ""),
  /** Batches cooked for this wave, by product id; every sample of the wave comes from one of them. */
  batches: z.record(z.string(), z.array(line)),
});
export type Wave = z.infer<typeof wave>;

const lengthMm = z.number().check(z.minimum(lineLengths.least), z.maximum(lineLengths.most));

const scale = z.strictObject({ lengthMm, attributes: z.array(attribute).check(z.maxLength(12)) });
export type Scale = z.infer<typeof scale>;
export const emptyScale = (): Scale => ({ lengthMm: lineLengths.usual, attributes: [] });

/** What a directional choice asks for: "Which sample is juicier?" */
export const property = z.strictObject({
  id,
  /** As the report names it: "Juiciness". */
  name: line,
  /** As the question uses it, in comparison: "juicier". */
  comparative: line,
  definition: paragraph,
  /** The product that is expected to have more of it, by id; null until said, and where either may have more. */
  expected: z.nullable(id),
  /** Does it share the risk alpha with the others of the family (Holm)? The first one always does. */
  inFamily: z.boolean(),
});
export type Property = z.infer<typeof property>;

/** Two factors that the products are the cells of: each product has one level of each. */
const factor = z.strictObject({ name: line, levels: z.tuple([line, line]) });
const cell = z.strictObject({ product: id, first: z.enum(["one", "two"]), second: z.enum(["one", "two"]) });

/**
 * Which differences between products of a line scale are judged, fixed at lock. all-pairs: every two of them; reference: each
 * of them against one product; planned: the pairs named; two-factors: four products as the cells of two factors, for instance
 * process and serving condition, whose two main effects and interaction are judged.
 */
export const comparisons = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("all-pairs") }),
  z.strictObject({ kind: z.literal("reference"), product: z.nullable(id) }),
  z.strictObject({
    kind: z.literal("planned"),
    pairs: z.array(z.strictObject({ first: z.nullable(id), second: z.nullable(id) })).check(z.maxLength(15)),
  }),
  z.strictObject({
    kind: z.literal("two-factors"),
    factors: z.tuple([factor, factor]),
    cells: z.array(cell).check(z.maxLength(12)),
  }),
]);
export type Comparisons = z.infer<typeof comparisons>;
export const comparisonKinds = [
  "all-pairs",
  "reference",
  "planned",
  "two-factors",
] as const satisfies readonly Comparisons["kind"][];

/** What a ranking puts in order, and the order that was predicted. */
export const ranking = z.strictObject({
  /** As the report names it: "Juiciness". */
  name: line,
  /** The ends of the order, as the question uses them: "least juicy", "most juicy". */
  least: line,
  most: line,
  definition: paragraph,
  /** Product ids from least to most, all of them, when an order was predicted (Page); empty where none was. */
  predicted: z.array(id).check(z.maxLength(6)),
  /** Is it put in order of liking? What customers like is then no question for colleagues. */
  liking: z._default(z.boolean(), false),
});
export type Ranking = z.infer<typeof ranking>;
export const emptyRanking = (): Ranking => ({
  ...{ name: "", least: "", most: "", definition: "", predicted: [], liking: false },
});

/** One-sided: the stronger product was named beforehand; two-sided: either may be. */
export const sidesOf = ["one", "two"] as const;
export type Sides = (typeof sidesOf)[number];

/**
 * Which product is the uncoded reference: always the one named (constant), or each on half of the trays (balanced).
 * In A-not-A the reference is the product that is "A", always.
 */
const reference = z.strictObject({ kind: z.enum(["constant", "balanced"]), product: z.nullable(id) });
export type Reference = z.infer<typeof reference>;

/**
 * When to stop, fixed at lock. fixed: when everybody has answered. looks: also at these numbers of answers, if the
 * exact rule says so, with a total risk of alpha. sequential: at any look by Wald's boundaries between guessing and the
 * difference sought, with risks alpha and beta (ISO 16820). Only for choice tests of a difference where somebody is
 * right, with one question a tray.
 */
export const stopping = z.discriminatedUnion("rule", [
  z.strictObject({ rule: z.literal("fixed") }),
  z.strictObject({ rule: z.literal("looks"), at: z.array(count).check(z.minLength(1), z.maxLength(5)) }),
  z.strictObject({ rule: z.literal("sequential"), beta: z.number().check(z.gt(0), z.lte(0.5)) }),
]);
export type Stopping = z.infer<typeof stopping>;

/** "No preference" when the two samples were the same: counts of an earlier blank study, to hold this one against. */
const blankNorm = z.strictObject({ title: line, none: count, of: count });

/** What a line-scale plan should find, and what it supposes for that. Points are hundredths of the line. */
const scaleSought = z.strictObject({
  /** Smallest difference between two products that matters, in points. */
  difference: z.number().check(z.gt(0), z.lte(100)),
  /** Residual standard deviation in points: one mark of one panelist, panelist and product means taken out. */
  deviation: z.number().check(z.gt(0), z.lte(100)),
  /**
   * With several trays a person: the part of that deviation by which people differ in how they see the products (panelist by
   * product), in points; null: nothing is said, and none is supposed.
   */
  seenDeviation: z._default(z.nullable(z.number().check(z.minimum(0), z.lte(100))), null),
  /** Where the deviation comes from: "study of 3 May", "a guess". */
  from: line,
});
export type ScaleSought = z.infer<typeof scaleSought>;

/** A distance d-prime that a plan names: above 0, and small enough to be a question. */
const distance = z.nullable(z.number().check(z.gt(0), z.lte(10)));

/**
 * "No preference": not offered; or offered, and then dropped before the test, split evenly between the two, or
 * reported as a third share of everybody asked (the test then compares the two among those who chose).
 */
export const noPreferenceRules = ["not-offered", "dropped", "split", "three-way"] as const;
export type NoPreference = (typeof noPreferenceRules)[number];

/** Who sits on the panel. Only recruited consumers speak for more than "this panel". */
export const panelTypes = ["colleagues", "trained", "consumers"] as const;
export type PanelType = (typeof panelTypes)[number];

/** To show that products differ, or that they differ by less than a limit set beforehand (choice tests only). */
export const goals = ["difference", "similarity"] as const;
export type Goal = (typeof goals)[number];

const similarity = z.strictObject({
  limit: z.number().check(z.gt(0), z.lt(1)),
  /** The limit as a d-prime; where there is one it is the limit, and `limit` is not used. */
  dPrime: z._default(distance, null),
  beta: z.number().check(z.gt(0), z.lte(0.5)),
});
const usualSimilarity = { limit: 0.3, dPrime: null, beta: 0.05 };

/**
 * A plan as the lead is writing it: everything may still be empty. `design/readiness` says what is missing.
 * A locked plan has the same fields; locking adds only the demand that nothing is missing.
 */
export const plan = z.strictObject({
  title: line,
  /** Part of the demo: nobody tasted anything. Every list, report and file that shows the study says so. */
  invented: z._default(z.boolean(), false),
  /** The study whose plan this one began with, by its id and its title then; null for a plan that began anew. */
  copiedFrom: z._default(z.nullable(z.strictObject({ study: id, title: line })), null),
  /** All cups hold one product, to try labels, wording and serving: it must come out at chance. */
  blank: z._default(z.boolean(), false),
  /** Answers to the planner's plain questions; and the advice that they gave, null until there was one. */
  asked: z._default(asked, nothingAsked()),
  advised: z._default(z.nullable(advised), null),
  objective: paragraph,
  ifYes: paragraph,
  ifNo: paragraph,
  standsFor: line,
  panelType: z._default(z.enum(panelTypes), "colleagues"),
  method: z.enum(plannable),
  goal: z.enum(goals),
  /** Similarity goal only: the share who can tell that still counts as alike, and the risk of calling more than that so. */
  similarity: z._default(similarity, usualSimilarity),
  alpha: z.number().check(z.gt(0), z.lte(0.5)),
  /**
   * Share who can tell, 0 to 1, that the plan should be able to find; used for the power shown beside it. For a
   * preference, the share by which those who prefer the one outnumber those who prefer the other: 0.3 is 65 to 35.
   * Not used by the line scale.
   */
  discriminatorShareSought: z.number().check(z.gt(0), z.lte(1)),
  /** The same as a d-prime; where there is one it is what is sought. Same-different and A-not-A have no other. */
  dPrimeSought: z._default(distance, null),
  /** Of the intervals of shares that stand beside the ones that match the test. */
  confidence: z._default(z.number().check(z.gt(0), z.lt(1)), 0.95),
  people: count,
  spares: count,
  /** How many trays each person has. */
  repeats: z._default(z.number().check(z.int(), z.minimum(1), z.maximum(12)), 1),
  /** All in the person's own wave, or one in each session: then the sessions are as many as the repeats. */
  repeatsIn: z._default(z.enum(["one-sitting", "sessions"]), "one-sitting"),
  stopping: z._default(stopping, { rule: "fixed" }),
  /** Paired difference and three-alternative choice: what is asked of each tray. The first is the question. */
  properties: z._default(z.array(property).check(z.maxLength(6)), []),
  /** Paired difference only. */
  sides: z._default(z.enum(sidesOf), "one"),
  /** Duo-trio (and A-not-A: the product that is "A"). */
  reference: z._default(reference, { kind: "balanced", product: null }),
  /** Paired preference with "no preference" only. */
  blankNorm: z._default(z.nullable(blankNorm), null),
  /** Paired preference only. */
  noPreference: z._default(z.enum(noPreferenceRules), "not-offered"),
  /** Line scale only. The first attribute is the one the question is about; the others are looked at beside it. */
  scale: z._default(scale, emptyScale()),
  /** Line scale only: what its number of people is held against; null: nothing was said. */
  scaleSought: z._default(z.nullable(scaleSought), null),
  /** Line scale only: each tray holds so many of the products, in incomplete blocks; null: all of them. */
  perTray: z._default(z.nullable(z.number().check(z.int(), z.minimum(2), z.maximum(6))), null),
  /** Line scale only. */
  comparisons: z._default(comparisons, { kind: "all-pairs" }),
  /** Ranking only. */
  ranking: z._default(ranking, emptyRanking()),
  /** Chewed and weighed portions only. */
  chew: z._default(chew, usualChew()),
  products: z.array(product).check(z.maxLength(12)),
  /** "Could you tell them apart by looks?" null until answered. */
  looks: z.nullable(z.enum(["alike", "masked", "differ"])),
  masking: line,
  waves: z.array(wave).check(z.maxLength(50)),
  serving,
  /** Who got which process: drawn, not drawn, or nothing said. */
  raw: z._default(raw, { drawn: "unknown" }),
  pace: z._default(pace, usualPace()),
  /** Does whoever carries the trays know the key? null until answered; never null in a locked plan. */
  serverKnowsKey: z.nullable(z.boolean()),
  place: line,
  palette: z.enum(["day", "dim"]),
  declarations: z.array(declaration).check(z.maxLength(20)),
  /** The lead's word that the declarations are whole and true; signed by the device that saves it. */
  declarationsComplete: z.boolean(),
  /** Cautions that apply to this food and were read by the lead. */
  cautionsRead: z.array(z.enum(cautions)),
  cautionsApplying: z.array(z.enum(cautions)),
  /** Is something served on or with the samples, such as bread, rice or a sauce? null until answered. */
  carrier: z._default(z.nullable(z.boolean()), null),
  carrierWhat: z._default(line, ""),
  /** The limits of the kitchen's table that this food is held against, as they stood then: holding, and what was chosen of cooking. */
  limits: z._default(z.array(safetyLimit).check(z.maxLength(60)), []),
  /** Nothing in this study has to be cooked through, so that no limit of cooking applies. */
  uncooked: z._default(z.boolean(), false),
  /** Who answers for food that is raw or undercooked by design; where there is such food, no limit of cooking holds it back. */
  responsible: z._default(line, ""),
  /** What people are told that they will taste, before they agree to: it names the food and nothing that differs. */
  served: z._default(line, ""),
  /** Whom people can turn to, then and later. */
  contact: z._default(line, ""),
  /** Codes the kitchen never wants on a cup (room numbers, local slang). */
  avoidCodes: z.array(code).check(z.maxLength(300)),
});
export type Plan = z.infer<typeof plan>;
