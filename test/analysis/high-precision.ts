import * as z from "zod/mini";
import { digits, reference } from "./reference.ts";

const number = z.number();
const table = <T>(row: z.ZodMiniType<T>) => z.object({ rows: z.array(row).check(z.minLength(10)) });

/** Values at 60 digits, made by test/reference/high-precision/make.py with mpmath. */
export const highPrecision = reference(
  "high-precision",
  z.object({
    tails: table(z.tuple([number, number, number, z.nullable(digits), z.nullable(digits)])),
    limits: table(z.tuple([number, number, number, digits, digits])),
    normal: table(z.tuple([number, digits, digits])),
    normalQuantile: table(z.tuple([number, digits])),
    power: table(z.tuple([number, number, number, z.nullable(number), digits])),
    triangle: table(z.tuple([number, digits, digits])),
  }),
);

/** Values at 50 digits from a second, earlier computation. */
export const fiftyDigits = reference(
  "fifty-digits",
  z.object({
    pointProbability: z.array(z.tuple([number, number, number, number])),
    upperTail: z.array(z.tuple([number, number, number, number])),
    lowerTail: z.array(z.tuple([number, number, number, number])),
    lowerLimit: z.array(z.tuple([number, number, number, number])),
    upperLimit: z.array(z.tuple([number, number, number, number])),
    normalLower: z.array(z.tuple([number, number])),
    normalQuantile: z.array(z.tuple([number, number])),
    triangle: z.array(z.tuple([number, number])),
  }),
);
