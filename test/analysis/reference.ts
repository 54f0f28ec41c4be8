import { readFileSync } from "node:fs";
import { join } from "node:path";
import * as z from "zod/mini";

/** Reads test/reference/<name>/values.json and checks its shape, so that a test never runs over an empty table. */
export function reference<T>(name: string, schema: z.ZodMiniType<T>): T {
  const file = join(import.meta.dirname, "../reference", name, "values.json");
  return z.parse(schema, JSON.parse(readFileSync(file, "utf8")));
}

/** A number written with more digits than a double holds. */
export const digits = z.pipe(z.string(), z.transform(Number));

/** How far `got` is from `truth`, as a share of the truth; 0 when both are 0. */
export const relativeError = (got: number, truth: number): number =>
  got === truth ? 0 : Math.abs(got - truth) / Math.abs(truth);
