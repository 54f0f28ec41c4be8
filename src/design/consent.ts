import { canonicalText, sha256 } from "../model/canonical.ts";
import { swallowOf } from "../model/chew-plan.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { consentLines } from "../words/en/consent.ts";
import { dayTime } from "./day-time.ts";

/**
 * The page on which people agree to take part, and its version, which covers every word. Nothing in it is about a product
 * but what the lead says is served.
 */
export function consentOf(plan: Plan): NonNullable<BlindPacket["consent"]> {
  const { served, contact, method, scale } = plan;
  const moments = scale.attributes.flatMap(({ moment, further }) => [moment, ...further.map((one) => one.moment)]);
  const timed = method === "line-scale" && moments.some(({ at }) => at === "after" || at === "chews");
  const told = { served, contact, minutes: sittingMinutes(plan), swallow: swallowOf(plan), timed };
  const lines = consentLines(told);
  return { version: sha256(canonicalText(lines)), lines };
}

/** Seconds to read what comes before the first sample. Common practice, no source. */
const reading = 120;

/**
 * How long one sitting takes a person, with what is read first. Minutes, rounded up to fives, since nobody should be told
 * less than it takes.
 */
export const sittingMinutes = (plan: Plan): number => Math.ceil((reading + dayTime(plan).sittingSeconds) / 300) * 5;
