import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { recordOfFile } from "../archive/study-file.ts";
import type { Ask } from "../demo/load.ts";
import { blindPacketOf } from "../design/packet.ts";
import { seating } from "../design/seating.ts";
import { eventsReply } from "../model/http.ts";
import { panelReply } from "../model/http-device.ts";
import { newId } from "../model/id.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { KeptMark, StudyRecord } from "../model/record.ts";
import { newPassphrase } from "../seal/passphrase.ts";
import { randomBytes } from "../seal/random.ts";
import { sealKey } from "../seal/seal.ts";
import { serveFor } from "../server/start.ts";
import { askOf } from "./ask.ts";
import { VirtualDevice } from "./virtual-device.ts";

const tabletNames = ["A", "B", "C"] as const;
const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" } as const;

/** A study that was played over HTTP, as it came back from the server. */
export type PlayedThrough = { record: StudyRecord; trays: number; events: number };

/**
 * Plays one study of a rehearsal through a server of its own: a lead locks it, three tablets fetch the blind packet and
 * send their answers by the code of real ones, the lead closes and opens it, and the log is read back.
 *
 * Takes    played: a study of `playStudy`; now: the clock
 * Returns  the record that the server's log gives. Its data folder is thrown away
 * Throws   Problem of the server; "file/rehearsal-not-whole" where what came back is not what was answered
 */
export async function playThrough(played: StudyRecord, app: string, now: () => string): Promise<PlayedThrough> {
  const folder = mkdtempSync(join(tmpdir(), "cloche-rehearsal-"));
  try {
    let through: PlayedThrough | null = null;
    await serveFor(folder, async (origin, leadCode) => {
      through = await playAt(origin, leadCode, played, app, now);
    });
    if (through === null) throw new Error("the server ended before the study did");
    return through;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function playAt(
  origin: string,
  leadCode: string,
  played: StudyRecord,
  app: string,
  now: () => string,
): Promise<PlayedThrough> {
  const ask = askOf(origin);
  const study = newId();
  const lead = await VirtualDevice.enroll(ask, study, leadCode, "rehearsal");
  const opened = await lockedBy(lead, played, study, app, now());
  await lead.send();
  const trays = await tasted(await tabletsOf(lead, ask), ask, played, now);
  const path = `/api/studies/${study}/events?after=0`;
  const heads = async () => (await ask(eventsReply, path, { token: lead.token })).heads;
  lead.write("study-closed", { heads: await heads(), knownUnsent: 0, note: "" }, now());
  await lead.send();
  lead.write("key-revealed", { heads: await heads(), opened }, now());
  await lead.send();
  const events = await eventsOf(ask, study, lead.token);
  const { record } = recordOfFile({ study, events, quarantined: 0 }, study);
  requireWhole(played, record);
  return { record, trays, events: events.length };
}

async function tabletsOf(lead: VirtualDevice, ask: Ask): Promise<VirtualDevice[]> {
  const tablets: VirtualDevice[] = [];
  for (const name of tabletNames) tablets.push(await lead.tablet(ask, `rehearsal ${name}`));
  return tablets;
}

/** Locks the plan with the trays that were played: same codes, same orders, a seal of its own. */
async function lockedBy(lead: VirtualDevice, played: StudyRecord, study: string, app: string, at: string) {
  const plan: Plan = { ...played.plan, invented: true };
  const { sealed, opened } = await sealKey({ ...played.opened.key, study }, newPassphrase(randomBytes), randomBytes);
  const packet = blindPacketOf(plan, study, played.packet.trays, sealed.commitment);
  lead.write("draft-saved", { base: null, merged: [], plan }, at);
  lead.write("study-locked", { plan, packet, sealed, seats: seating(plan).seats, app }, at);
  return opened;
}

/** Every tablet gets the packet, serves every third tray and sends; returns how many trays were answered. */
async function tasted(
  tablets: readonly VirtualDevice[],
  ask: Ask,
  played: StudyRecord,
  now: () => string,
): Promise<number> {
  const answered = [...new Set([...played.judgments, ...played.marks].map(({ tray }) => tray))];
  for (const [place, tablet] of tablets.entries()) {
    const { packet } = await ask(panelReply, "/api/panel", { token: tablet.token });
    if (!packet) throw problem("access/not-found");
    for (const tray of answered.filter((_, at) => at % tablets.length === place)) {
      writeBallot(tablet, packet, tray, played, now);
    }
    await tablet.send();
  }
  return answered.length;
}

function writeBallot(
  tablet: VirtualDevice,
  packet: BlindPacket,
  tray: number,
  played: StudyRecord,
  now: () => string,
): void {
  const { allergens, consent } = packet;
  const agreed = consent ? { consent: consent.version } : {};
  tablet.write("tray-opened", { tray, clearance: allergens.version, ...agreed }, now());
  for (const judgment of played.judgments.filter((each) => each.tray === tray)) {
    const { question, choice, guess } = judgment;
    tablet.write("answer-kept", { tray, question, choice, guess, elapsedMs: 0, screen, salt: newSalt() }, now());
  }
  played.marks
    .filter((each) => each.tray === tray)
    .forEach((mark, at) => {
      tablet.write("mark-kept", markBody(mark, questionOf(packet, mark) ?? at + 1), now());
    });
  tablet.write("tray-finished", { tray }, now());
}

/** Sample after sample, within a sample in the order of the packet's attributes. */
function questionOf({ trays, line }: BlindPacket, { tray, code, attribute }: KeptMark): number | null {
  const codes = trays.find((each) => each.tray === tray)?.codes ?? [];
  const attributes = line?.attributes.map(({ id }) => id) ?? [];
  const [sample, item] = [codes.indexOf(code), attributes.indexOf(attribute)];
  return sample < 0 || item < 0 ? null : sample * attributes.length + item + 1;
}

function markBody({ tray, code, attribute, fraction, lengthMm, lengthPx }: KeptMark, question: number) {
  return {
    tray,
    question,
    code,
    attribute,
    mark: fraction === null ? null : { fraction, start: "pointer" as const, moves: 0, firstMs: 0 },
    why: null,
    line: lengthMm === null || lengthPx === null ? null : { lengthMm, lengthPx },
    chewedSeconds: null,
    hidden: false,
    elapsedMs: 0,
    screen,
    salt: newSalt(),
  };
}

const newSalt = (): string => Buffer.from(randomBytes(32)).toString("hex");

async function eventsOf(ask: Ask, study: string, token: string): Promise<string[]> {
  const texts: string[] = [];
  for (let after = 0; ; ) {
    const { events, head } = await ask(eventsReply, `/api/studies/${study}/events?after=${after}`, { token });
    texts.push(...events.flatMap(({ text }) => (text === null ? [] : [text])));
    const last = events.at(-1)?.position ?? head;
    if (events.length === 0 || last >= head) return texts;
    after = last;
  }
}

/** Everything that was answered came back, under the key that was sealed, and nothing else did. */
function requireWhole(played: StudyRecord, back: StudyRecord): void {
  const told = ({ judgments, marks }: StudyRecord): string[] =>
    [
      ...judgments.map(({ tray, seat, question, choice }) => `${tray} ${seat} ${question} ${choice}`),
      ...marks.map(({ tray, seat, code, attribute, fraction }) => `${tray} ${seat} ${code} ${attribute} ${fraction}`),
    ].sort();
  const [sent, got] = [told(played), told(back)];
  if (back.keyMatches && JSON.stringify(sent) === JSON.stringify(got)) return;
  throw problem("file/rehearsal-not-whole", { sent: sent.length, back: got.length });
}
