import { familyOf } from "../analysis/method.ts";
import { readingPattern } from "../model/grams.ts";
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
  /** Of chewed portions; empty where nothing was named. */
  chewed: Record<"control" | "matters" | "seconds" | "balanceStep", string>;
};
export const nothingTyped: Typed = {
  ...{ file: null, method: "triangle", goal: "difference", sides: "one", noPreference: "dropped" },
  ...{ alpha: "5", limit: "30", beta: "5", confidence: "95", fixedAs: "share", limitDistance: "1" },
  chewed: { control: "", matters: "", seconds: "", balanceStep: "" },
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
  const chewed = chewedOf(typed);
  if (typeof chewed === "string") return chewed;
  const goal = similarity ? "similarity" : "difference";
  const sides = shapeOf(method).sides === "either" ? typed.sides : "one";
  return { ...{ method, noPreference, goal, sides }, ...shares, limitDistance: byDistance ? distance : null, chewed };
}

/** What is named of chewed portions, or what is wrong with it; of other methods it is left alone. */
function chewedOf({ method, chewed }: Typed): AskedOfFile["chewed"] | string {
  if (shapeOf(method).answer !== "portions") return { control: "", matters: null, seconds: null, balanceStep: "" };
  const [matters, seconds] = [numberOf(chewed.matters), numberOf(chewed.seconds)];
  const balanceStep = chewed.balanceStep.trim().replace(",", ".");
  if (chewed.matters.trim() !== "" && !(matters > 0 && matters <= 100))
    return words.badNumber(words.chewed.matters, 0, 100);
  if (chewed.seconds.trim() !== "" && !(seconds > 0 && seconds <= 600))
    return words.badNumber(words.chewed.seconds, 0, 600);
  if (balanceStep !== "" && !(readingPattern.test(balanceStep) && Number(balanceStep) > 0)) return words.chewed.badStep;
  return {
    control: chewed.control.trim(),
    matters: Number.isNaN(matters) ? null : matters,
    seconds: Number.isNaN(seconds) ? null : seconds,
    balanceStep,
  };
}

type Need = ["alpha" | "limit" | "beta" | "confidence", "below" | "half"];
const needs = (similarity: boolean, byDistance: boolean): Need[] => [
  ["confidence", "below"],
  ...(similarity && !byDistance ? [["limit", "below"] satisfies Need] : []),
  similarity ? ["beta", "half"] : ["alpha", "half"],
];

/** A number with a point or a comma; NaN when it is none. */
const numberOf = (text: string): number => (text.trim() === "" ? Number.NaN : Number(text.replace(",", ".")));
/** A percentage as a share. */
const shareOf = (text: string): number => numberOf(text) / 100;
