import * as z from "zod/mini";
import { rehearsal } from "../model/rehearsal.ts";
import { count } from "../model/schema.ts";

/** What a rehearsal tells while it goes on. The examples come with the sentences their reports would begin with. */
export const rehearsalNews = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("progress"), done: count }),
  z.strictObject({
    kind: z.literal("done"),
    rehearsal,
    texts: z.array(z.strictObject({ verdict: z.string(), size: z.string(), meaning: z.string() })),
  }),
  z.strictObject({ kind: z.literal("failed"), sentence: z.string() }),
]);
export type RehearsalNews = z.infer<typeof rehearsalNews>;
