import { familyOf } from "../analysis/method.ts";
import { shapeOf } from "../model/method.ts";
import { reader } from "../words/en/reader.ts";
import type { AskedOfFile } from "./job.ts";

const words = reader.elsewhere;

/** What was typed, as typed: kept while the result is shown, so that one thing can be changed. */
export type Typed = Pick<AskedOfFile, "method" | "goal" | "sides" | "noPreference"> & {
  file: File | null;
  fixedAs: "share" | "distance";
  alpha: string;
  confidence: string;
  limitDistance: string;
  limit: string;
  beta: string;
};
export const nothingTyped: Typed = {
  ...{ file: null, method: "triangle", goal: "difference", sides: "one", noPreference: "dropped" },
  ...{ alpha: "5", limit: "30", beta: "5", confidence: "95", fixedAs: "share", limitDistance: "1" },
};
/** A limit of likeness makes sense where somebody can be right by a known chance. */
export const mayBeLikeness = ({ method, sides }: Pick<Typed, "method" | "sides">): boolean =>
  shapeOf(method).similarity && familyOf(method, sides) === "choice";
export const seeksLikeness = (typed: Pick<Typed, "method" | "sides" | "goal">): boolean =>
  mayBeLikeness(typed) && typed.goal === "similarity";

/** As in a plan: a larger distance is no question. */
export const mostDistance = 10;

/** What was typed as numbers, or a sentence that says which is none. */
export function askedOf(typed: Typed): AskedOfFile | string {
  const similarity = seeksLikeness(typed);
  const byDistance = similarity && typed.fixedAs === "distance";
  const { method, noPreference } = typed;
  const shares = {
    ...{ alpha: shareOf(typed.alpha), limit: shareOf(typed.limit) },
    ...{ beta: shareOf(typed.beta), confidence: shareOf(typed.confidence) },
  };
  for (const [name, most] of needs(similarity, byDistance)) {
    const share = shares[name];
    if (!(share > 0 && (most === "below" ? share < 1 : share <= 0.5))) {
      return words.badPercent(words[name], words.above(0), most === "below" ? words.below(100) : words.atMost(50));
    }
  }
  const distance = shareOf(typed.limitDistance) * 100;
  if (byDistance && !(distance > 0 && distance <= mostDistance)) {
    return words.badNumber(words.limitDistance, 0, mostDistance);
  }
  const goal = similarity ? "similarity" : "difference";
  const sides = shapeOf(method).sides === "either" ? typed.sides : "one";
  return { ...{ method, noPreference, goal, sides }, ...shares, limitDistance: byDistance ? distance : null };
}

type Need = ["alpha" | "limit" | "beta" | "confidence", "below" | "half"];
const needs = (similarity: boolean, byDistance: boolean): Need[] => [
  ["confidence", "below"],
  ...(similarity && !byDistance ? [["limit", "below"] satisfies Need] : []),
  similarity ? ["beta", "half"] : ["alpha", "half"],
];

/** A percentage with a point or a comma, as a share; NaN when it is no number. */
const shareOf = (text: string): number => (text.trim() === "" ? Number.NaN : Number(text.replace(",", ".")) / 100);
