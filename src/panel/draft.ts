import * as z from "zod/mini";
import { count, id, instant, trayNumber } from "../model/schema.ts";
import { isLateStep, type LateStep, type Step } from "./flow.ts";

/** What of a tray is not kept yet, as it lies on the tablet: enough to stand at the same place after a crash. */
export const draft = z.discriminatedUnion("at", [
  z.strictObject({ at: z.literal("rules"), savedAt: instant }),
  z.strictObject({ at: z.literal("tasting"), touched: count, resting: z.boolean(), savedAt: instant }),
  z.strictObject({
    at: z.literal("question"),
    question: z._default(count, 1),
    picked: z.nullable(z.string()),
    held: z._default(z.nullable(z.string()), null),
    guess: z.boolean(),
    /** Time the question was on screen before, on the monotonic clock. */
    elapsedMs: z.number(),
    savedAt: instant,
  }),
  z.strictObject({ at: z.literal("remark"), text: z.string(), savedAt: instant }),
]);
export type Draft = z.infer<typeof draft>;

/** Which tray this tablet had open last, so that a restart finds it again. */
export const openTray = z.strictObject({ study: id, tray: trayNumber, at: instant });
export type OpenTray = z.infer<typeof openTray>;
export const openTrayName = "open tray";

export const draftName = (study: string, tray: number): string => `tray ${study} ${tray}`;

export function readDraft(value: unknown): Draft | null {
  const parsed = z.safeParse(draft, value);
  return parsed.success ? parsed.data : null;
}

export function readOpenTray(value: unknown): OpenTray | null {
  const parsed = z.safeParse(openTray, value);
  return parsed.success ? parsed.data : null;
}

/** When a draft of any kind was laid down; null when it is none. */
export function savedAtOf(value: unknown): string | null {
  const parsed = z.safeParse(z.object({ savedAt: instant }), value);
  return parsed.success ? parsed.data.savedAt : null;
}

/** The draft of a step; null where there is nothing to come back to. `ofLate` makes that of a step of a ballot loaded late. */
export function draftOf(
  step: Step,
  elapsedMs: number,
  savedAt: string,
  ofLate: (step: LateStep) => object | undefined,
): object | null {
  if (isLateStep(step)) return ofLate(step) ?? null;
  const own = ownDraftOf(step, elapsedMs, savedAt);
  if (own !== null || (step.at !== "differ" && step.at !== "cannot")) return own;
  return draftOf(step.back, elapsedMs, savedAt, ofLate);
}

function ownDraftOf(step: Exclude<Step, LateStep>, elapsedMs: number, savedAt: string): Draft | null {
  switch (step.at) {
    case "rules":
      return { at: "rules", savedAt };
    case "tasting":
      return { at: "tasting", touched: step.touched, resting: step.restUntil !== null, savedAt };
    case "question": {
      const { question, picked, held, guess } = step;
      return { at: "question", question, picked, held, guess, elapsedMs, savedAt };
    }
    case "remark":
      return step.kept ? null : { at: "remark", text: step.text, savedAt };
    default:
      return null;
  }
}

/**
 * Was this left so long ago that somebody else may stand before the tablet? Then it waits for its tray number.
 * A clock that was set back makes nothing old.
 */
export function isStale(savedAt: string, now: string, limitMs: number): boolean {
  return Date.parse(now) - Date.parse(savedAt) > limitMs;
}
