import * as z from "zod/mini";

/**
 * An estimate with its uncertainty. `estimate` or `high` is null where it has no finite value (d-prime when every
 * answer is right), or where there is nothing to estimate from; `kind` says which bounds mean something: "two-sided",
 * "lower" (only `low` is a bound), "upper" (only `high` is one), or "none": an estimate alone, both bounds null, because
 * some people answered more than once and pooled answers bound nothing.
 */
export const interval = z.strictObject({
  estimate: z.nullable(z.number()),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  confidence: z.number(),
  kind: z.enum(["two-sided", "lower", "upper", "none"]),
});
export type Interval = z.infer<typeof interval>;
