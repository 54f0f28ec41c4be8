import * as z from "zod/mini";
import { type Envelope, envelope, isPanelKind } from "../model/ballot-event.ts";
import { bodies, type Fact, isKind, outlineBodies } from "../model/event.ts";
import { answeredOnPaper } from "../model/paper-event.ts";
import { misfit } from "../model/schema.ts";
import { eventText } from "./reading.ts";

/** Reading and writing of every kind of event; see `EventText`. */
export const allEvents = eventText(bodies);
export const { readEvent, writeEvent } = allEvents;

/** Reads an outline, as the server gives it out before the reveal; null when it is not one. */
export function readOutline(value: unknown, hash: string): Fact | null {
  if (misfit(envelope, value)) return null;
  const read = value as Envelope;
  if (!isKind(read.kind) || read.v !== 1) return null;
  const body = z.safeParse(outlineBodies[read.kind] as z.ZodMiniType, read.body);
  return body.success ? ({ ...read, hash, outline: isPanelKind(read.kind), body: body.data } as Fact) : null;
}

/** The outline of an event: itself, but a ballot event without what it says. */
export function outlineOf(fact: Fact): Envelope {
  const { hash: _hash, outline: _outline, ...rest } = fact;
  if (fact.kind === "answer-kept" || fact.kind === "mark-kept" || fact.kind === "portion-chewed") {
    return { ...rest, body: { tray: fact.body.tray, question: fact.body.question } };
  }
  if (fact.kind === "remark-kept") return { ...rest, body: { tray: fact.body.tray } };
  if (fact.kind === "paper-typed" && !fact.outline) {
    const { tray, typing, against, agrees, stopped } = fact.body;
    return { ...rest, body: { tray, typing, against, agrees, stopped, questions: answeredOnPaper(fact.body) } };
  }
  return rest;
}
