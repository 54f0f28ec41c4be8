import * as z from "zod/mini";
import { digits, reference } from "./reference.ts";

const number = z.number();
const tail = z.nullable(digits);
const table = <T>(row: z.ZodMiniType<T>) => z.object({ rows: z.array(row).check(z.minLength(70)) });

/** Tails of beta, t and F at 50 digits, made by test/reference/beta-family/make.py with mpmath. */
export const betaFamily = reference(
  "beta-family",
  z.object({
    beta: table(z.tuple([number, number, number, tail, tail])),
    t: table(z.tuple([number, number, digits])),
    tQuantile: table(z.tuple([number, number, digits])),
    f: table(z.tuple([number, number, number, tail, tail])),
  }),
);

/** A few of the same from a second, earlier computation. */
export const fiftyDigitsBeta = reference(
  "beta-family-fifty-digits",
  z.object({
    tUpper: z.array(z.tuple([number, number, digits])).check(z.minLength(2)),
    tQuantile: z.array(z.tuple([number, number, digits])).check(z.minLength(2)),
    fUpper: z.array(z.tuple([number, number, number, digits])).check(z.minLength(2)),
  }),
);

/** Errors allowed: 1e-12 of the value down to 1e-10, 2e-12 below. */
export const allowed = (truth: number): number => (truth >= 1e-10 ? 1e-12 : 2e-12);
