import type { Ask } from "../demo/load.ts";
import { writeEvent } from "../log/facts.ts";
import { type OutboxEvent, type OutboxStore, sendAll, type Transport } from "../log/outbox.ts";
import type { Body, Kind } from "../model/event.ts";
import { codeReply, enrollReply, pushReply, streamKey } from "../model/http.ts";
import { newEventId } from "../model/id.ts";
import { Problem } from "../model/problem.ts";

/** A device that lives in memory: its log is chained and sent by the code that real ones send with. */
export class VirtualDevice {
  readonly device: string;
  readonly token: string;
  readonly #study: string;
  readonly #send: () => Promise<void>;
  #events: OutboxEvent[] = [];
  #last: string | null = null;

  private constructor(ask: Ask, study: string, { device, token }: { device: string; token: string }) {
    this.device = device;
    this.token = token;
    this.#study = study;
    const transport: Transport = {
      push: async (body) => ({ ok: true, reply: await ask(pushReply, "/api/events", { token, body }) }),
    };
    const store = outboxOf(() => this.#events, study);
    this.#send = async () => {
      const outcome = await sendAll(store, transport, async () => null);
      if (outcome.done === "failed") throw new Problem(outcome.problem);
      if (outcome.done === "rolled-back") throw new Error("the server holds more of a virtual device than was sent");
    };
  }

  /** Enrolls a device with a one-time code, as a person would type it. */
  static async enroll(ask: Ask, study: string, code: string, name: string): Promise<VirtualDevice> {
    return new VirtualDevice(ask, study, await ask(enrollReply, "/api/enroll", { body: { code, name } }));
  }

  /** A tablet that serves the study, enrolled by a lead. */
  async tablet(ask: Ask, name: string): Promise<VirtualDevice> {
    const body = { role: "panel", study: this.#study, name };
    const { code } = await ask(codeReply, "/api/codes", { token: this.token, body });
    return VirtualDevice.enroll(ask, this.#study, code, name);
  }

  write<K extends Kind>(kind: K, body: Body<K>, at: string): void {
    const seq = this.#events.length + 1;
    const stream = { kind: "study" as const, id: this.#study };
    const id = newEventId();
    const { text, hash } = writeEvent({ id, stream, device: this.device, seq, prev: this.#last, at, kind, body });
    this.#last = hash;
    this.#events.push({ id, stream: streamKey(stream), seq, text, sent: "unsent", own: true });
  }

  send(): Promise<void> {
    return this.#send();
  }
}

function outboxOf(events: () => OutboxEvent[], study: string): OutboxStore {
  const stream = streamKey({ kind: "study", id: study });
  return {
    unsent: async (max) => ({
      events: events()
        .filter(({ sent }) => sent === "unsent")
        .slice(0, max),
      attachments: [],
    }),
    topSeqs: async () => ({ [stream]: events().length }),
    settle: async (changes) => {
      for (const { id, sent } of changes) {
        const event = events().find((each) => each.id === id);
        if (event) event.sent = sent;
      }
      return { lost: 0 };
    },
  };
}
