import type { FastifyInstance } from "fastify";
import * as z from "zod/mini";
import type { FactOf } from "../../log/fact.ts";
import { readEvent } from "../../log/facts.ts";
import { leastForLook } from "../../log/looks.ts";
import type { Heads } from "../../model/ballot-event.ts";
import type { Fact, Kind } from "../../model/event.ts";
import { lookReply, streamKey } from "../../model/http.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { answersWithin, type LeadText, lookTexts } from "../query/looks.ts";
import { headsOfStream } from "../query/streams.ts";
import { eventText, isClosed, lockEvent } from "../query/studies.ts";
import { callerOf, type House, serve } from "../serve.ts";

const params = z.object({ id: idSchema, look: idSchema });

/**
 * The one way to answers before the reveal: a look that the locked stopping rule allows, to the lead's device that began
 * it, once that stands in the log. Each time is a line in the server's log.
 */
export function lookRoutes(app: FastifyInstance, { store, presence }: House): void {
  const { db } = store;

  serve(app, "GET /api/studies/:id/looks/:look", lookReply, async (request) => {
    const caller = callerOf(request);
    presence.note(caller.id, null);
    const { id, look } = read(params, request.params, () => problem("access/not-found"));
    const stream = streamKey({ kind: "study", id });
    const begun = await lookTexts(db, stream, "look-begun");
    const mine = begun.find((row) => row.id === look);
    if (!mine) throw problem("access/not-found");
    if (!caller.ids.includes(mine.device)) throw problem("access/not-allowed");
    const { body, least } = await allowed(id, mine, begun);
    await refuseIfOver(id, look);
    await refuseIfMissing(stream, body.heads);
    const answers = await answersWithin(db, stream, body.heads);
    refuseIfEarly(answeredTrays(answers), least, body, begun);
    request.log.info({ look: body.look, answers: answers.length, device: mine.device }, "answers given for a look");
    return { incarnation: store.incarnation, answers: answers.map(({ text }) => text) };
  });

  /** What the look says, and how many answers it takes: where the plan has one of its number, and no other counts. */
  async function allowed(study: string, mine: LeadText, begun: readonly LeadText[]) {
    const { body } = factOf(mine.text, "look-begun");
    const first = begun.find(({ text }) => factOf(text, "look-begun").body.look === body.look);
    const lock = await lockEvent(db, study);
    const plan = lock === null ? null : factOf(await eventText(db, lock), "study-locked").body.plan;
    const least = plan && leastForLook(plan, body.look);
    if (first?.id !== mine.id || least === null) throw problem("look/not-allowed");
    return { body, least };
  }

  async function refuseIfOver(study: string, look: string): Promise<void> {
    const done = await lookTexts(db, streamKey({ kind: "study", id: study }), "look-done");
    const isDone = done.some(({ text }) => factOf(text, "look-done").body.look === look);
    if (isDone || (await isClosed(db, study))) throw problem("look/over");
  }

  /** A look over fewer answers than it named would say something else than its record. */
  async function refuseIfMissing(stream: string, named: Heads): Promise<void> {
    const held = await headsOfStream(db, stream);
    const missing = Object.entries(named).map(([device, head]) => Math.max(0, head - (held[device] ?? 0)));
    const all = missing.reduce((sum, count) => sum + count, 0);
    if (all > 0) throw problem("look/records-missing", { missing: all });
  }
}

/** Trays with an answer; one on paper only once it was typed in twice. */
function answeredTrays(answers: readonly { tray: number; kind: string }[]): number {
  const trays = answers.flatMap(({ tray, kind }, at) => {
    const before = () => answers.slice(0, at).some((one) => one.kind === kind && one.tray === tray);
    return kind !== "paper-typed" || before() ? [tray] : [];
  });
  return new Set(trays).size;
}

/** Too few trays are answered within the look, or no more than the look before it saw. */
function refuseIfEarly(
  answered: number,
  planned: number,
  { look }: { look: number },
  begun: readonly LeadText[],
): void {
  const before = begun
    .map(({ text }) => factOf(text, "look-begun").body)
    .filter((body) => body.look < look)
    .map((body) => body.answered + 1);
  const least = Math.max(planned, ...before);
  if (answered < least) throw problem("look/too-early", { answered, least });
}

function factOf<K extends Kind>(text: string, kind: K): FactOf<K> {
  const event = readEvent(text);
  const fact: Fact | null = event.ok ? event.fact : null;
  // the server judged it sound when it came in
  if (fact?.kind !== kind) throw new Error(`not a sound ${kind}`);
  return fact as FactOf<K>;
}
