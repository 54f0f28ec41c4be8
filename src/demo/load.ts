import type * as z from "zod/mini";
import { readEvent } from "../log/facts.ts";
import type { Attachment } from "../model/ballot-event.ts";
import {
  codeReply,
  deviceInfo,
  enrollReply,
  eventsReply,
  type PushRequest,
  pushReply,
  studiesReply,
} from "../model/http.ts";
import { problem } from "../model/problem.ts";
import type { By, WrittenAct } from "./acts.ts";
import { leadDeviceName, tabletNames } from "./kitchen.ts";
import { type DemoStudy, type Writing, writeClaim, writeDemo } from "./studies.ts";

/**
 * One call to the server: GET without a body, else POST. Resolves to a reply that fits the schema and throws the Problem
 * otherwise. It must neither send nor keep cookies: the tablets enrolled here are not this browser.
 */
export type Ask = <T>(
  schema: z.ZodMiniType<T>,
  path: string,
  options: { token?: string | undefined; body?: unknown },
) => Promise<T>;

/** The demo, written and waiting to be sent. */
export type Loading = {
  studies: DemoStudy[];
  /** Sends what the server does not hold yet; after a failure it may be called again. */
  send: () => Promise<void>;
};

/** Events of one request: well under what a server takes. */
const mostEvents = 200;

/**
 * Gets the demo ready for a server: enrolls a lead's laptop and three tablets of its own and writes what each of them
 * would hold.
 *
 * Takes    ask: the way to the server; token: a lead's, which makes the codes; writing: see `writeDemo`
 * Returns  the demo with the way to send it. Its devices are withdrawn once all is sent, since nobody holds them
 * Throws   Problem "demo/already-there", "lock/insecure-origin", and what `ask` throws
 */
export async function prepareDemo(
  ask: Ask,
  token: string,
  writing: Omit<Writing, "device" | "claim">,
): Promise<Loading> {
  await refuseSecond(ask, token);
  const devices = await enrollAll(ask, token);
  const written = { ...writing, device: (by: By) => deviceOf(devices, by).device, claim: writing.newStudyId() };
  const studies = await writeDemo(written);
  const left = stepsOf(ask, token, devices, [...studies, writeClaim(studies, written)]);
  return {
    studies: studies.map(({ id, title, revealed, seated }) => ({ id, title, revealed, seated })),
    send: async () => {
      // a step that failed stays the first: the server takes an event that it has once more for what it is
      for (let step = left[0]; step; step = left[0]) {
        await step();
        left.shift();
      }
    },
  };
}

type Enrolled = { by: By; device: string; token: string };

async function enrollAll(ask: Ask, token: string): Promise<Enrolled[]> {
  const wanted: { by: By; role: "lead" | "panel"; name: string }[] = [
    { by: "lead", role: "lead", name: leadDeviceName },
    ...([0, 1, 2] as const).map((by) => ({ by, role: "panel" as const, name: tabletNames[by] })),
  ];
  const enrolled: Enrolled[] = [];
  for (const { by, role, name } of wanted) {
    const { code } = await ask(codeReply, "/api/codes", { token, body: { role, study: null, name } });
    const reply = await ask(enrollReply, "/api/enroll", { body: { code, name } });
    enrolled.push({ by, device: reply.device, token: reply.token });
  }
  return enrolled;
}

function deviceOf(devices: readonly Enrolled[], by: By): Enrolled {
  const found = devices.find((device) => device.by === by);
  if (!found) throw new Error(`no device for ${by}`);
  return found;
}

type Step = () => Promise<unknown>;

/**
 * One request after the other. Each study as it would arrive: what the lead wrote before anybody tasted, the tablets,
 * the rest; then the claim, and the withdrawals.
 */
function stepsOf(ask: Ask, token: string, devices: Enrolled[], logs: readonly { acts: WrittenAct[] }[]): Step[] {
  const pushes = logs.flatMap(({ acts }) => {
    const firstBallot = acts.findIndex(({ by }) => by !== "lead");
    const morning = firstBallot < 0 ? acts : acts.slice(0, firstBallot);
    const day = acts.slice(morning.length);
    const parts = [morning, ...[0, 1, 2, "lead"].map((by) => day.filter((act) => act.by === by))];
    return parts.flatMap(inBatches).map(
      (part): Step =>
        () =>
          push(ask, devices, part),
    );
  });
  const withdrawals = devices.map(
    ({ device }): Step =>
      () =>
        ask(deviceInfo, `/api/devices/${device}`, { token, body: { revoked: true } }),
  );
  return [...pushes, ...withdrawals];
}

const inBatches = (acts: readonly WrittenAct[]): WrittenAct[][] =>
  Array.from({ length: Math.ceil(acts.length / mostEvents) }, (_, at) =>
    acts.slice(at * mostEvents, (at + 1) * mostEvents),
  );

/** Sends what one device wrote. */
async function push(ask: Ask, devices: readonly Enrolled[], acts: readonly WrittenAct[]): Promise<void> {
  const [first] = acts;
  if (!first) return;
  const body: PushRequest = {
    events: acts.map(({ text }) => text),
    attachments: acts.flatMap(({ attachment }): Attachment[] => (attachment ? [attachment] : [])),
    status: null,
  };
  const { verdicts } = await ask(pushReply, "/api/events", { token: deviceOf(devices, first.by).token, body });
  const refused = verdicts.find(({ verdict }) => verdict !== "stored" && verdict !== "have");
  if (refused) throw new Error(`the server did not take an event of the demo: ${refused.verdict}`);
}

/** A second demo beside the first would only confuse. A study of it is known by the mark on its locked plan. */
async function refuseSecond(ask: Ask, token: string): Promise<void> {
  const { studies } = await ask(studiesReply, "/api/studies", { token });
  for (const { id } of studies) {
    const { events } = await ask(eventsReply, `/api/studies/${id}/events?after=0`, { token });
    for (const { text } of events) {
      const read = text === null ? null : readEvent(text);
      if (!read?.ok || read.fact?.kind !== "study-locked") continue;
      const { title, invented } = read.fact.body.plan;
      if (invented) throw problem("demo/already-there", { title });
    }
  }
}
