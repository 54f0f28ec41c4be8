import * as z from "zod/mini";
import { count, hex, id, line } from "./schema.ts";

/**
 * How raw pieces or lots came to their processes. unknown: nobody said; not-drawn: somebody chose, or took them as they came;
 * drawn: they are numbered and the lock draws which gets which process, and the order of cooking. `divided`: each piece is cut
 * into as many parts as there are products, one for each, so that batches are paired; `perBatch`: pieces in one batch.
 */
export const raw = z.discriminatedUnion("drawn", [
  z.strictObject({ drawn: z.literal("unknown") }),
  z.strictObject({ drawn: z.literal("not-drawn") }),
  z.strictObject({
    drawn: z.literal("drawn"),
    unit: z.enum(["pieces", "lots"]),
    divided: z.boolean(),
    perBatch: z.number().check(z.int(), z.minimum(1), z.maximum(50)),
  }),
]);
export type Raw = z.infer<typeof raw>;
export type DrawnRaw = Extract<Raw, { drawn: "drawn" }>;

/** One cook: what goes into a batch. `part`: the letter of a divided piece's part, from "a"; empty where pieces stay whole. */
const cook = z.strictObject({
  /** The first wave that is served from it, from 1. */
  wave: count,
  product: id,
  batch: line,
  pieces: z.array(z.strictObject({ piece: count, part: z.string().check(z.maxLength(1)) })),
});
export type Cook = z.infer<typeof cook>;

/** The draw of a lock, in the order of cooking. Its seed is its own: it opens nothing of the key, and no code follows from it. */
export const rawDraw = z.strictObject({ seed: hex, cooks: z.array(cook) });
export type RawDraw = z.infer<typeof rawDraw>;
