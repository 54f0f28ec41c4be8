import * as z from "zod/mini";
import { reference } from "./reference.ts";

const numbers = z.array(z.number());
const alone = { current: numbers, new: numbers, difference: numbers };
const step = z.object({
  own: z.object(alone),
  ofRaw: z.object({ ...alone, paired: numbers }),
  ratio: numbers,
  ratioPaired: numbers,
});

/** What R says of the scenario's ledger and of its chewed portions; how, says make.R beside the values. */
export const massByR = reference(
  "mass-by-r",
  z.object({
    ledger: z.object({ cooked: step, rested: step, held: step }),
    chew: z.object({ ...alone, ratio: numbers, firstPersonAlone: numbers, firstPersonRatio: numbers }),
    nearZero: z.object({ open: numbers, closed: numbers, closedPaired: numbers }),
  }),
);
