import { randomUUID } from "node:crypto";
import { writeEvent } from "../../src/log/facts.ts";
import type { StreamName } from "../../src/model/ballot-event.ts";
import { canonicalText, sha256 } from "../../src/model/canonical.ts";
import type { Body, Kind } from "../../src/model/event.ts";
import { newEventId } from "../../src/model/id.ts";
import type { BlindPacket } from "../../src/model/packet.ts";
import { readyPlan } from "../design/scenario.ts";

export const studyStream = (id: string): StreamName => ({ kind: "study", id });

/** A device's pen: writes the texts of events as a tablet or a lead's laptop does, gapless and chained per stream. */
export class Pen {
  readonly device: string;
  #last = new Map<string, { seq: number; hash: string }>();

  constructor(device: string) {
    this.device = device;
  }

  write<K extends Kind>(study: string, kind: K, body: Body<K>, id = newEventId()): { id: string; text: string } {
    const last = this.#last.get(study);
    const seq = (last?.seq ?? 0) + 1;
    const at = new Date().toISOString();
    const stream = studyStream(study);
    const { text, hash } = writeEvent({
      id,
      stream,
      device: this.device,
      seq,
      prev: last?.hash ?? null,
      at,
      kind,
      body,
    });
    this.#last.set(study, { seq, hash });
    return { id, text };
  }

  /** An envelope of any content at all: what this app would never write itself. */
  raw(study: string, seq: number, kind: string, body: unknown, changes: Record<string, unknown> = {}): string {
    const at = new Date().toISOString();
    const stream = studyStream(study);
    return canonicalText({
      id: newEventId(),
      stream,
      device: this.device,
      seq,
      prev: null,
      at,
      kind,
      v: 1,
      body,
      ...changes,
    });
  }

  note(study: string): { id: string; text: string } {
    return this.write(study, "paper-printed", { paper: "labels", reprint: false });
  }

  opened(study: string, tray: number) {
    return this.write(study, "tray-opened", { tray, clearance: sha256("list") });
  }

  answer(study: string, tray: number, choice = "482") {
    return this.write(study, "answer-kept", answerBody(tray, choice));
  }

  mark(study: string, tray: number, question: number, fraction: number | null) {
    return this.write(study, "mark-kept", markBody(tray, question, fraction));
  }

  lock(study: string, packet: BlindPacket = packetOf(study), id = newEventId()) {
    return this.write(
      study,
      "study-locked",
      {
        plan: readyPlan(),
        packet,
        sealed: {
          v: 1,
          study,
          commitment: packet.commitment,
          kdf: { rounds: 600_000, salt: "00" },
          iv: "00",
          ciphertext: "AA==",
        },
        seats: [{ seat: 1, trays: [1] }],
        app: "test",
      },
      id,
    );
  }

  close(study: string) {
    return this.write(study, "study-closed", { heads: {}, knownUnsent: 0, note: "" });
  }

  reveal(study: string) {
    const opened = { key: { v: 1 as const, study, seed: "00", trays: [] }, salt: "00" };
    return this.write(study, "key-revealed", { heads: {}, opened });
  }
}

export const answerBody = (tray: number, choice = "482"): Body<"answer-kept"> => ({
  tray,
  question: 1,
  choice,
  guess: false,
  elapsedMs: 1234.5,
  screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
  salt: "5a".repeat(32),
});

/** A mark of one attribute on a tray of two samples; null: could not judge. */
export const markBody = (tray: number, question: number, fraction: number | null): Body<"mark-kept"> => ({
  tray,
  question,
  code: question === 1 ? "482" : "715",
  attribute: "55555555-5555-4555-8555-555555555551",
  mark: fraction === null ? null : { fraction, start: "pointer", moves: 1, firstMs: 800 },
  why: fraction === null ? "not-perceived" : null,
  line: { lengthPx: 624, lengthMm: 120 },
  chewedSeconds: 10.2,
  hidden: false,
  elapsedMs: 1234.5,
  screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
  salt: "5a".repeat(32),
});

/** The blind packet of two trays of an invented triangle. */
export function packetOf(study: string): BlindPacket {
  return {
    v: 1,
    study,
    method: "triangle",
    wording: "triangle-1",
    noPreference: false,
    reference: null,
    properties: [],
    ranking: null,
    chew: null,
    line: null,
    palette: "day",
    allergens: { version: sha256("list"), contains: ["egg", "milk"], mayContain: ["mustard"], other: [] },
    cautions: ["choking"],
    consent: null,
    swallow: "swallow",
    cleanser: "Water and plain crackers",
    pauseSeconds: 45,
    retaste: true,
    warmUp: true,
    trays: [
      { tray: 1, wave: 1, spare: false, codes: ["482", "715", "309"] },
      { tray: 2, wave: 1, spare: true, codes: ["264", "518", "937"] },
    ],
    commitment: sha256(randomUUID()),
  };
}
