import { blindPacketOf } from "../../src/design/packet.ts";
import { makeTrays, type Trays } from "../../src/design/trays.ts";
import { writeEvent } from "../../src/log/facts.ts";
import { isAnswerKind } from "../../src/model/ballot-event.ts";
import type { Body, Kind } from "../../src/model/event.ts";
import type { EnrollReply, EventsReply } from "../../src/model/http.ts";
import { newEventId, newId } from "../../src/model/id.ts";
import type { OpenedKey } from "../../src/model/key.ts";
import type { Plan } from "../../src/model/plan.ts";
import { newPassphrase } from "../../src/seal/passphrase.ts";
import { cryptoUniform, newSeed } from "../../src/seal/random.ts";
import { sealKey } from "../../src/seal/seal.ts";
import type { ServerProcess } from "./machine.ts";

/** A lead without a screen: for tests whose subject is the tablet. Codes come from the cryptographic source. */
export class ApiLead {
  readonly study = newId();
  readonly #server: ServerProcess;
  #me!: EnrollReply;
  #last: { seq: number; hash: string } | null = null;
  trays!: Trays;
  opened!: OpenedKey;
  readonly passphrase = newPassphrase();

  private constructor(server: ServerProcess) {
    this.#server = server;
  }

  /** `given`: a code from another lead; else it is the server's first. */
  static async enroll(server: ServerProcess, given?: string): Promise<ApiLead> {
    const lead = new ApiLead(server);
    const code = given ?? decodeURIComponent(server.setupAddress().split("#setup=")[1] ?? "");
    lead.#me = (await lead.post("/api/enroll", { code, name: "Odalys Brandt" })) as EnrollReply;
    return lead;
  }

  async lock(plan: Plan): Promise<void> {
    this.trays = makeTrays(plan, this.study, { seed: newSeed(), codes: cryptoUniform() });
    const { sealed, opened } = await sealKey(this.trays.key, this.passphrase);
    this.opened = opened;
    const packet = blindPacketOf(plan, this.study, this.trays.blind, sealed.commitment);
    await this.say("study-locked", { plan, packet, sealed, seats: this.trays.seats, app: "test" });
  }

  async tabletCode(name: string): Promise<string> {
    const reply = (await this.post("/api/codes", { role: "panel", study: this.study, name })) as { code: string };
    return reply.code;
  }

  async leadCode(name: string): Promise<string> {
    return ((await this.post("/api/codes", { role: "lead", study: null, name })) as { code: string }).code;
  }

  async readerCode(name: string): Promise<string> {
    const reply = (await this.post("/api/codes", { role: "reader", study: this.study, name })) as { code: string };
    return reply.code;
  }

  async say<K extends Kind>(kind: K, body: Body<K>): Promise<void> {
    const written = writeEvent({
      id: newEventId(),
      stream: { kind: "study", id: this.study },
      device: this.#me.device,
      seq: (this.#last?.seq ?? 0) + 1,
      prev: this.#last?.hash ?? null,
      at: new Date().toISOString(),
      kind,
      body,
    });
    await this.post("/api/events", { events: [written.text], attachments: [], status: null });
    this.#last = { seq: written.fact.seq, hash: written.hash };
  }

  async events(): Promise<EventsReply> {
    const response = await fetch(`${this.#server.origin}/api/studies/${this.study}/events?after=0`, {
      headers: { authorization: `Bearer ${this.#me.token}` },
    });
    return (await response.json()) as EventsReply;
  }

  /** Kinds and trays of the ballot events that the server holds, as outlines tell them. */
  async ballotEvents(): Promise<string[]> {
    const { events } = await this.events();
    return events
      .map(({ text, outline }) => (outline ?? JSON.parse(text ?? "null")) as { kind: string; body: { tray: number } })
      .filter(({ kind }) => kind.startsWith("tray-") || isAnswerKind(kind))
      .map(({ kind, body }) => `${body.tray} ${kind}`);
  }

  /** Asks the server as this lead, or as the device of another token. */
  async post(path: string, body: unknown, token = this.#me?.token): Promise<unknown> {
    const response = await fetch(`${this.#server.origin}${path}`, {
      method: "POST",
      headers: { "content-type": "application/json", ...(token ? { authorization: `Bearer ${token}` } : {}) },
      body: JSON.stringify(body),
    });
    if (response.status !== 200) throw new Error(`${path}: ${response.status} ${await response.text()}`);
    return response.json();
  }
}
