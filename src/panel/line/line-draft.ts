import * as z from "zod/mini";
import { markStarts, noMarkReasons } from "../../model/ballot-event.ts";
import type { Fact } from "../../model/event.ts";
import { count, instant, line } from "../../model/schema.ts";
import type { Tray } from "../flow.ts";
import {
  type Ask,
  type Asked,
  appear,
  atFirstBite,
  firstSample,
  type LineStep,
  questionAt,
  timed,
} from "./line-flow.ts";

const asked = z.strictObject({
  mark: z.nullable(
    z.strictObject({
      fraction: z.number().check(z.minimum(0), z.maximum(1)),
      start: z.enum(markStarts),
      moves: count,
      firstMs: z.number(),
      pointer: line,
    }),
  ),
  why: z.nullable(z.enum(noMarkReasons)),
  kept: count,
  changed: z.boolean(),
  chewedSeconds: z.nullable(z.number()),
  hidden: z.boolean(),
  elapsedMs: z.number(),
});
const atSample = { sample: count, asked: z.array(z.nullable(asked)), savedAt: instant };

/** What of a tray on the line is not kept yet. The chew clock is not among it: it ends with the page. */
export const lineDraft = z.discriminatedUnion("at", [
  z.strictObject({ at: z.literal("compare"), savedAt: instant }),
  z.strictObject({ at: z.literal("take"), resting: z.boolean(), again: z.boolean(), ...atSample }),
  z.strictObject({ at: z.literal("chew"), ...atSample }),
  z.strictObject({ at: z.literal("mark"), item: count, ...atSample }),
]);
export type LineDraft = z.infer<typeof lineDraft>;

/** The draft of a step, with the time its question was on screen. */
export function lineDraftOf(step: LineStep, now: number, savedAt: string): LineDraft {
  switch (step.at) {
    case "compare":
      return { at: "compare", savedAt };
    case "take":
      return {
        at: "take",
        sample: step.sample,
        asked: step.asked,
        resting: step.restUntil !== null && now < step.restUntil,
        again: step.again,
        savedAt,
      };
    case "chew":
      return { at: "chew", sample: step.sample, asked: step.asked, savedAt };
    case "mark": {
      const { sample, asked, item } = timed(step, now);
      return { at: "mark", sample, asked, item, savedAt };
    }
    case "no-mark":
      return lineDraftOf(step.back, now, savedAt);
  }
}

/**
 * Where a tray on the line was left: by what this tablet kept of it, and by its draft.
 *
 * Returns  null when nothing was begun: the tray opens at the rules; "answered" when every question is kept
 */
export function lineStepAt(
  ask: Ask,
  tray: Tray,
  facts: Iterable<Fact>,
  draft: unknown,
  now: number,
): LineStep | "answered" | null {
  const kept = keptOf(facts, tray.tray);
  const parsed = z.safeParse(lineDraft, draft);
  const left = parsed.success ? parsed.data : null;
  if (kept.size === 0 && (left === null || left.at === "compare")) {
    return left ? { at: "compare", tray } : null;
  }
  const items = ask.attributes.map((_, item) => item);
  const sample = tray.codes.findIndex((_, place) => items.some((item) => !kept.has(questionAt(ask, place, item))));
  if (sample < 0) return "answered";
  const mine = left && left.at !== "compare" && left.sample === sample ? left : null;
  const asked = items.map((item) => mine?.asked[item] ?? kept.get(questionAt(ask, sample, item)) ?? null);
  const fresh = { ...firstSample(ask, tray), sample, asked };
  if (mine?.at === "mark" && asked[mine.item]) {
    return appear(ask, { tray, sample, asked, bite: null, hidden: false }, mine.item, now, false);
  }
  const begun =
    mine === null ? asked.some((one) => one !== null) : mine.at === "chew" || (mine.at === "take" && mine.again);
  const open = asked.findIndex((one) => one === null || one.kept === 0);
  if (begun && mine === null && atFirstBite(ask.attributes[open])) {
    return appear(ask, { tray, sample, asked, bite: null, hidden: false }, open, now, false);
  }
  const rests = !begun && sample > 0 && ask.pauseMs > 0 && (mine === null || (mine.at === "take" && mine.resting));
  return { ...fresh, restUntil: rests ? now + ask.pauseMs : null, again: begun };
}

/** The marks of a tray as they were kept last, by question. */
function keptOf(facts: Iterable<Fact>, tray: number): Map<number, Asked> {
  const kept = new Map<number, Asked>();
  for (const fact of facts) {
    if (fact.kind !== "mark-kept" || fact.outline || fact.body.tray !== tray) continue;
    const { question, mark, why, chewedSeconds, hidden, elapsedMs, screen } = fact.body;
    kept.set(question, {
      mark: mark && { ...mark, pointer: screen.pointer },
      why,
      kept: (kept.get(question)?.kept ?? 0) + 1,
      changed: false,
      chewedSeconds,
      hidden,
      elapsedMs,
    });
  }
  return kept;
}
