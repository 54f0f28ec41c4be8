import * as z from "zod/mini";
import { allergens } from "./allergen.ts";
import { code, count, id, line, paragraph } from "./schema.ts";

/** Methods of the terminal and of every file. Only those in `plannable` can be planned so far. */
export const methods = [
  "triangle",
  "duo-trio",
  "paired-difference",
  "three-alternative",
  "tetrad",
  "same-different",
  "a-not-a",
  "paired-preference",
  "line-scale",
  "ranking",
  "chew-and-weigh",
] as const;
export type Method = (typeof methods)[number];
export const plannable = ["triangle"] as const satisfies readonly Method[];

const product = z.strictObject({
  id,
  name: line,
  /** Everything done to it up to the cup, so that a reader sees that only the treatment differs. */
  preparation: paragraph,
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
  /** Batches cooked for this wave, by product id; every sample of the wave comes from one of them. */
  batches: z.record(z.string(), z.array(line)),
});
export type Wave = z.infer<typeof wave>;

export const cautions = ["hygiene", "choking", "undercooked", "alcohol"] as const;
export type Caution = (typeof cautions)[number];

const serving = z.strictObject({
  portionGrams: z.nullable(z.number().check(z.positive(), z.maximum(1000))),
  servingCelsius: z.nullable(z.number().check(z.minimum(-30), z.maximum(100))),
  vessel: line,
  cleanser: line,
  pauseSeconds: z.number().check(z.int(), z.minimum(0), z.maximum(600)),
  swallow: z.enum(["swallow", "spit", "either"]),
  retaste: z.boolean(),
  warmUp: z.boolean(),
  warmUpWhat: line,
});

/**
 * A plan as the lead is writing it: everything may still be empty. `design/readiness` says what is missing.
 * A locked plan has the same fields; locking adds only the demand that nothing is missing.
 */
export const plan = z.strictObject({
  title: line,
  objective: paragraph,
  ifYes: paragraph,
  ifNo: paragraph,
  standsFor: line,
  method: z.enum(plannable),
  goal: z.enum(["difference"]),
  alpha: z.number().check(z.gt(0), z.lte(0.5)),
  /** Share who can tell, 0 to 1, that the plan should be able to find; used for the power shown beside it. */
  discriminatorShareSought: z.number().check(z.gt(0), z.lte(1)),
  people: count,
  spares: count,
  products: z.array(product).check(z.maxLength(12)),
  /** "Could you tell them apart by looks?" null until answered. */
  looks: z.nullable(z.enum(["alike", "masked", "differ"])),
  masking: line,
  waves: z.array(wave).check(z.maxLength(50)),
  serving,
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
  /** Codes the kitchen never wants on a cup (room numbers, local slang). */
  avoidCodes: z.array(code).check(z.maxLength(300)),
});
export type Plan = z.infer<typeof plan>;
