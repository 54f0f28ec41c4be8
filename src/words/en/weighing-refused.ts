import type { Weighing } from "../../model/ledger.ts";
import { shortNumber } from "../number.ts";
import { named } from "./phrases.ts";

/** What cannot be in a ledger, as `refusalsOf` of the analysis finds it. */
export type RefusedFacts =
  | { what: "no-mass" }
  | { what: "no-grams" }
  | { what: "added-first" }
  | { what: "tare-above-gross"; grams: Weighing["grams"]; tare: Weighing["tare"] }
  | { what: "gain"; before: number; after: number; since: string; added: number; tolerance: number }
  | { what: "thousandfold"; grams: number; beside: number }
  | { what: "tenfold"; grams: number; beside: number }
  | { what: "drip-above-loss"; drip: number; lost: number; tolerance: number }
  | { what: "pair-twice"; pair: string; other: string };

const grams = (value: number): string => `${shortNumber(value, 6)} g`;

/** One sentence for each: what cannot be, and what to do. */
export function refusedText(facts: RefusedFacts): string {
  switch (facts.what) {
    case "no-mass":
      return "Nothing is left of the mass. A batch weighs more than 0 g; read the balance again.";
    case "tare-above-gross":
      return `The dish (${facts.tare} g) weighs more than dish and food together (${facts.grams} g). Look whether the two are exchanged.`;
    case "no-grams":
      return "What else was noted of this weighing needs its mass: type the grams first, or empty the other fields.";
    case "added-first":
      return "Liquid cannot be added before the first step: it is part of the mass that is weighed there. Note it at the step after.";
    case "gain":
      if (facts.added > 0)
        return `The mass grew from ${grams(facts.before)} at ${named(facts.since)} to ${grams(facts.after)}, by more than the ${grams(facts.added)} of liquid that were added and the balance may err (${grams(facts.tolerance)}). Correct a number, or name the reason.`;
      return `The mass grew from ${grams(facts.before)} at ${named(facts.since)} to ${grams(facts.after)}, by more than the balance may err (${grams(facts.tolerance)}). Food loses mass unless something is added: correct the number, or name the reason.`;
    case "thousandfold":
      return `${grams(facts.grams)} beside ${grams(facts.beside)} looks like kilograms typed for grams. Type all masses in grams.`;
    case "tenfold":
      return `${grams(facts.grams)} beside ${grams(facts.beside)} is ten times as much or more, which no reason explains. Look at the decimal point and the unit; type all masses in grams.`;
    case "drip-above-loss":
      return `${grams(facts.drip)} of juice were caught, but only ${grams(facts.lost)} can have been lost. Look at both numbers.`;
    case "pair-twice":
      return `Batch ${named(facts.other)} of the same process has the pair ${named(facts.pair)} already. A pair is one batch of each process.`;
  }
}
