import { sayAtLook } from "../analysis/look.ts";
import { knownFacts, seenHeads } from "../device/pull.ts";
import { call } from "../device/transport.ts";
import { readEvent } from "../log/facts.ts";
import { foldStudy, type StudyState } from "../log/fold.ts";
import { type Look, type NextLook, nextLook } from "../log/looks.ts";
import { answersCounted, recordOfLook } from "../log/record.ts";
import type { Fact } from "../model/event.ts";
import { lookReply } from "../model/http.ts";
import { Problem, problem } from "../model/problem.ts";
import { appendEvent, type Lead } from "./app-context.ts";
import { fetchStudy } from "./facts.ts";
import { type Opener, openWith } from "./open-key.tsx";

/** Where a study stands between its looks; null where it has no stopping rule, or is closed. */
export function lookOf(state: StudyState): { next: NextLook; answered: number } | null {
  const plan = state.lock?.body.plan;
  if (!plan || plan.stopping.rule === "fixed" || state.close) return null;
  const answered = answersCounted(state);
  return { next: nextLook(plan, state.looks, answered), answered };
}

/**
 * Takes the look that is due, or finishes the one that was begun. Opened key and answers live in this call alone: they
 * are in no store, no page and no event.
 *
 * Returns  what the rule said, once that is in the log of this device
 * Throws   Problems of the key (then nothing was begun), of the network and of the server: a look that was begun by then
 *          stays begun, and is finished by calling this again
 */
export async function takeLook(lead: Lead, study: string, opener: Opener): Promise<"go-on" | "stop"> {
  const before = await stateOf(lead, study);
  if (!before.lock) throw problem("look/not-allowed");
  // a wrong passphrase must not cost a look
  const opened = await openWith(opener, before.lock.body);
  const look = await begunLook(lead, study);
  const state = foldStudy([
    ...(await knownFacts(lead.store, streamOf(study))),
    ...(await answersOf(lead, study, look)),
  ]);
  const said = sayAtLook(recordOfLook(state, look, opened));
  const body = { look: look.begun.id, said };
  await appendEvent(lead, { stream: streamOf(study), kind: "look-done", body, mark: `look-done ${look.begun.id}` });
  await lead.sendNow();
  return said;
}

const streamOf = (study: string) => ({ kind: "study" as const, id: study });
const stateOf = async ({ store }: Lead, study: string): Promise<StudyState> =>
  foldStudy(await knownFacts(store, streamOf(study)));

/** The look at hand: one that was begun here, or the one that is due, which then goes into the log and to the server. */
async function begunLook(lead: Lead, study: string): Promise<Look> {
  await fetchStudy(lead, study);
  const place = lookOf(await stateOf(lead, study));
  if (!place) throw problem("look/over");
  const { next, answered } = place;
  if (next.what === "due") await begin(lead, study, next.look, answered);
  else if (next.what !== "unfinished") throw problem(next.what === "stopped" ? "look/over" : "look/not-allowed");
  await lead.sendNow();
  const after = lookOf(await stateOf(lead, study))?.next;
  if (after?.what !== "unfinished") throw problem("look/not-allowed");
  return after.look;
}

async function begin(lead: Lead, study: string, look: number, answered: number): Promise<void> {
  const heads = await seenHeads(lead.store, streamOf(study));
  const body = { look, heads, answered };
  await appendEvent(lead, { stream: streamOf(study), kind: "look-begun", body, mark: `look ${study} ${look}` });
}

/** The answers that the look sees, from the server straight into memory. */
async function answersOf({ fetcher, who }: Lead, study: string, { begun }: Look): Promise<Fact[]> {
  const path = `/api/studies/${study}/looks/${begun.id}`;
  const outcome = await call(fetcher, lookReply, path, { token: who.token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  return outcome.reply.answers.flatMap((text) => {
    const event = readEvent(text);
    return event.ok && event.fact ? [event.fact] : [];
  });
}
