import * as z from "zod/mini";
import { line } from "./schema.ts";

/** How samples are served and tasted. */
export const serving = z.strictObject({
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
