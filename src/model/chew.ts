import * as z from "zod/mini";

/** The mouth before each portion: rinsed with water and then left for a while; only rinsed; or dried with a paper cloth. */
export const mouths = ["rinsed-and-waited", "rinsed", "dried"] as const;

/** What a tablet needs to know of how portions are chewed that are weighed afterwards. */
export const askedChew = z.strictObject({
  /** How long each portion is chewed. */
  seconds: z.number().check(z.int(), z.minimum(3), z.maximum(60)),
  mouth: z.enum(mouths),
  waitSeconds: z.number().check(z.int(), z.minimum(0), z.maximum(300)),
  /** Grams of water that are rinsed with and spat into the same cup; null: the mouth is not rinsed into it. */
  rinseGrams: z.nullable(z.number().check(z.gt(0), z.maximum(50))),
});
