import { Agent, request } from "node:http";
import { type PushReply, pushReply } from "../../../src/model/http.ts";
import { newId } from "../../../src/model/id.ts";
import { read } from "../../../src/model/schema.ts";
import { Pen } from "../../server/pen.ts";
import type { ServerProcess } from "../../server/server-process.ts";

/** Bodies of pushes, ready to be sent: making and encoding events is the tablets' work, not the server's. */
type Ready = { body: Buffer; events: number };

/** A tablet that writes answers and sends them over one connection that stays open. */
class Tablet {
  readonly #pen: Pen;
  readonly #token: string;
  readonly #origin: URL;
  #agent = new Agent();
  #tray = 0;

  constructor(origin: string, { device, token }: { device: string; token: string }) {
    this.#origin = new URL("/api/events", origin);
    this.#pen = new Pen(device);
    this.#token = token;
  }

  /** Opens a new connection: the server closes one on which nothing happened while the other side was measured. */
  async connect(): Promise<void> {
    this.close();
    this.#agent = new Agent({ keepAlive: true, maxSockets: 1 });
    await this.#post(Buffer.from(JSON.stringify({ events: [], attachments: [], status: null })));
  }

  write(study: string, count: number): Ready {
    const events = Array.from({ length: count }, () => {
      this.#tray = (this.#tray % 9999) + 1;
      return this.#pen.answer(study, this.#tray).text;
    });
    return { body: Buffer.from(JSON.stringify({ events, attachments: [], status: null })), events: count };
  }

  /** Sends and waits for the verdicts. Throws when an event was not stored: a fast refusal is no figure. */
  async send({ body, events }: Ready): Promise<void> {
    const reply = await this.#post(body);
    const stored = reply.verdicts.filter(({ verdict }) => verdict === "stored").length;
    if (stored !== events) throw new Error(`the server stored ${stored} of ${events} events`);
  }

  close(): void {
    this.#agent.destroy();
  }

  #post(body: Buffer): Promise<PushReply> {
    const headers = {
      "content-type": "application/json",
      "content-length": body.length,
      authorization: `Bearer ${this.#token}`,
    };
    return new Promise((done, failed) => {
      const sent = request(this.#origin, { method: "POST", agent: this.#agent, headers }, (response) => {
        const parts: Buffer[] = [];
        response.on("data", (part: Buffer) => parts.push(part));
        response.on("end", () => {
          const text = Buffer.concat(parts).toString();
          if (response.statusCode === 200) done(read(pushReply, JSON.parse(text)));
          else failed(new Error(`the server answered ${response.statusCode}: ${text}`));
        });
      });
      sent.on("error", failed);
      sent.end(body);
    });
  }
}

/** Four tablets of one study at a server, as in a booth: each sends in order, all of them at once. */
export class Tablets {
  readonly #study = newId();
  readonly #all: Tablet[];

  private constructor(all: Tablet[]) {
    this.#all = all;
  }

  static async enroll(server: ServerProcess, count: number): Promise<Tablets> {
    const lead = await server.lead();
    const all: Tablet[] = [];
    for (let at = 0; at < count; at++) all.push(new Tablet(server.origin, await server.device(lead, "panel")));
    return new Tablets(all);
  }

  /** Seconds from the first byte sent until the last event is acknowledged. */
  async sendBatches(events: number, batch: number): Promise<number> {
    const each = Math.floor(events / batch / this.#all.length);
    const ready = this.#all.map((tablet) => ({
      tablet,
      pushes: Array.from({ length: each }, () => tablet.write(this.#study, batch)),
    }));
    for (const { tablet } of ready) await tablet.connect();
    const start = performance.now();
    await Promise.all(
      ready.map(async ({ tablet, pushes }) => {
        for (const push of pushes) await tablet.send(push);
      }),
    );
    return (performance.now() - start) / 1000;
  }

  /** Milliseconds until each of so many single events is acknowledged, one after the other. */
  async sendSingly(count: number): Promise<number[]> {
    const [tablet] = this.#all;
    if (!tablet) throw new Error("no tablet");
    const pushes = Array.from({ length: count }, () => tablet.write(this.#study, 1));
    const times: number[] = [];
    await tablet.connect();
    for (const push of pushes) {
      const start = performance.now();
      await tablet.send(push);
      times.push(performance.now() - start);
    }
    return times;
  }

  close(): void {
    for (const tablet of this.#all) tablet.close();
  }
}
