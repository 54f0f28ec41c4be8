import * as z from "zod/mini";
import type { Fact } from "../../model/event.ts";
import { count, instant } from "../../model/schema.ts";
import type { Tray } from "../flow.ts";
import { type Ask, type ChewStep, pausing, portion } from "./chew-flow.ts";

const atPortion = { at: z.literal("portion"), sample: count, savedAt: instant };

/** What of a tray of portions is not kept yet. The chew clock is not among it: it ends with the page. */
export const chewDraft = z.union([
  z.strictObject({ at: z.literal("compare"), savedAt: instant }),
  z.strictObject({ ...atPortion, phase: z.literal("mouth"), resting: z.boolean() }),
  z.strictObject({ ...atPortion, phase: z.literal("chew") }),
  z.strictObject({
    ...atPortion,
    phase: z.literal("whole"),
    whole: z.nullable(z.boolean()),
    seconds: z.nullable(z.number()),
    hidden: z.boolean(),
  }),
  z.strictObject({ ...atPortion, phase: z.literal("lid") }),
]);
export type ChewDraft = z.infer<typeof chewDraft>;

/** The draft of a step. Whoever waited with a rinsed mouth begins with the mouth again. */
export function chewDraftOf(step: ChewStep, now: number, savedAt: string): ChewDraft {
  if (step.at === "compare") return { at: "compare", savedAt };
  const { at, sample } = step;
  switch (step.phase) {
    case "mouth":
      return { at, sample, phase: "mouth", resting: pausing(step, now), savedAt };
    case "wait":
    case "bite":
      return { at, sample, phase: "mouth", resting: false, savedAt };
    case "chew":
      return { at, sample, phase: "chew", savedAt };
    case "whole": {
      const { whole, seconds, hidden } = step;
      return { at, sample, phase: "whole", whole, seconds, hidden, savedAt };
    }
    case "lid":
      return { at, sample, phase: "lid", savedAt };
  }
}

/**
 * Where a tray of portions was left: by what this tablet kept of it, and by its draft. A portion that was in the mouth when
 * the page went has no seconds: there is no other of its code.
 *
 * Returns  null when nothing was begun: the tray opens at the rules; "answered" when every portion is kept
 */
export function chewStepAt(
  ask: Ask,
  tray: Tray,
  facts: Iterable<Fact>,
  draft: unknown,
  now: number,
): ChewStep | "answered" | null {
  const kept = new Set<number>();
  for (const { kind, body } of facts) if (kind === "portion-chewed" && body.tray === tray.tray) kept.add(body.question);
  const parsed = z.safeParse(chewDraft, draft);
  const left = parsed.success ? parsed.data : null;
  if (left?.at === "compare") return { at: "compare", tray };
  if (left === null && kept.size === 0) return null;
  const sample = tray.codes.findIndex((_, place) => !kept.has(place + 1));
  if (left?.phase === "lid" && kept.has(left.sample + 1)) return portion(tray, left.sample, { phase: "lid" });
  if (sample < 0) return "answered";
  if (left?.sample !== sample || left.phase === "lid" || left.phase === "mouth") {
    const rests =
      sample > 0 && ask.pauseMs > 0 && !(left?.sample === sample && left.phase === "mouth" && !left.resting);
    return portion(tray, sample, { phase: "mouth", until: rests ? now + ask.pauseMs : null });
  }
  if (left.phase === "chew") return portion(tray, sample, { phase: "chew", bite: null, hidden: true, now: true });
  const { whole, seconds, hidden } = left;
  return portion(tray, sample, { phase: "whole", since: now, whole, seconds, hidden });
}
