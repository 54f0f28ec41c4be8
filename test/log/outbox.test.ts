import { describe, expect, test } from "vitest";
import { backOff, type OutboxStore, type PushOutcome, type SentState, sendAll } from "../../src/log/outbox.ts";
import type { PushReply, PushRequest } from "../../src/model/http.ts";
import { problem } from "../../src/model/problem.ts";

const incarnation = "99999999-9999-4999-8999-999999999999";

/** An outbox in memory, for the rules alone; the real store runs the same suite in test/device. */
class MemoryStore implements OutboxStore {
  readonly rows: { id: string; stream: string; seq: number; text: string; sent: SentState }[];
  incarnation = "";
  constructor(count: number) {
    this.rows = Array.from({ length: count }, (_, index) => ({
      id: `e${index + 1}`,
      stream: "study:s",
      seq: index + 1,
      text: `text ${index + 1}`,
      sent: "unsent" as SentState,
    }));
  }
  async unsent(max: number) {
    const waiting = this.rows.filter((row) => row.sent === "unsent").slice(0, max);
    return { events: waiting.map((row) => ({ ...row, own: true })), attachments: [] };
  }
  async topSeqs() {
    return { "study:s": this.rows.length };
  }
  async settle(changes: { id: string; sent: SentState }[], reply: Pick<PushReply, "incarnation" | "heads">) {
    this.incarnation = reply.incarnation;
    for (const { id, sent } of changes) for (const row of this.rows) if (row.id === id) row.sent = sent;
    const lost = this.rows.filter((row) => row.sent === "safe" && row.seq > (reply.heads[row.stream] ?? 0));
    for (const row of lost) row.sent = "unsent";
    return { lost: lost.length };
  }
  count(sent: SentState): number {
    return this.rows.filter((row) => row.sent === sent).length;
  }
}

/** A server in memory that keeps texts, answers "have" for known ones, and can lose everything. */
class MemoryServer {
  held = new Map<string, string>();
  seen = new Set<string>();
  pushes: number[] = [];
  incarnation = incarnation;
  verdictFor: (id: string) => PushReply["verdicts"][number]["verdict"] | null = () => null;
  push = async (request: PushRequest): Promise<PushOutcome> => {
    this.pushes.push(request.events.length);
    const verdicts = request.events.map((text) => {
      const id = `e${text.slice(5)}`;
      const forced = this.verdictFor(id);
      const verdict = forced ?? (this.held.has(id) ? "have" : "stored");
      if (!forced) this.held.set(id, text);
      this.seen.add(id);
      return { id, verdict };
    });
    let head = 0;
    // whatever a device's envelope is judged, it advances the head: nothing jams the queue
    while (this.held.has(`e${head + 1}`) || (this.verdictFor(`e${head + 1}`) && this.seen.has(`e${head + 1}`)))
      head += 1;
    return { ok: true, reply: { incarnation: this.incarnation, verdicts, heads: { "study:s": head } } };
  };
}

const quiet = async () => null;

describe("outbox", () => {
  test("C14: everything unsent goes out in order and in bounded batches, and is then safe", async () => {
    const store = new MemoryStore(1050);
    const server = new MemoryServer();
    expect(await sendAll(store, server, quiet)).toEqual({ done: "all-sent" });
    expect([store.count("safe"), server.held.size]).toEqual([1050, 1050]);
    expect(Math.max(...server.pushes)).toBeLessThanOrEqual(200);
  });

  test("C16: a server with lower heads (restored, or new) is refilled with what it lost", async () => {
    const store = new MemoryStore(10);
    const server = new MemoryServer();
    await sendAll(store, server, quiet);
    for (const id of ["e6", "e7", "e8", "e9", "e10"]) server.held.delete(id);
    server.incarnation = "88888888-8888-4888-8888-888888888888";
    expect(await sendAll(store, server, quiet)).toEqual({ done: "all-sent" });
    expect([server.held.size, store.count("safe"), store.incarnation]).toEqual([10, 10, server.incarnation]);
  });

  test("C6: a reply that does not name every event is no acknowledgment", async () => {
    const store = new MemoryStore(3);
    const server = new MemoryServer();
    const short = {
      push: async (request: PushRequest): Promise<PushOutcome> => {
        const outcome = await server.push(request);
        return outcome.ok
          ? { ok: true, reply: { ...outcome.reply, verdicts: outcome.reply.verdicts.slice(1) } }
          : outcome;
      },
    };
    expect(await sendAll(store, short, quiet)).toMatchObject({
      done: "failed",
      problem: { code: "server/not-cloche" },
    });
    expect(store.count("unsent")).toBe(3);
  });

  test("C9: one refused event is stepped over; the ones behind it flow", async () => {
    const store = new MemoryStore(5);
    const server = new MemoryServer();
    server.verdictFor = (id) => (id === "e3" ? "refused" : null);
    expect(await sendAll(store, server, quiet)).toEqual({ done: "all-sent" });
    expect([...server.held.keys()].sort()).toEqual(["e1", "e2", "e4", "e5"]);
    expect(store.count("refused")).toBe(1);
  });

  test("C10: a conflict is kept by the server, marked here, and blocks nothing", async () => {
    const store = new MemoryStore(4);
    const server = new MemoryServer();
    server.verdictFor = (id) => (id === "e2" ? "conflict" : null);
    expect(await sendAll(store, server, quiet)).toEqual({ done: "all-sent" });
    expect([store.count("kept-aside"), store.count("safe")]).toEqual([1, 3]);
  });

  test("the status that goes with a batch counts what stays on the device once it has arrived", async () => {
    const store = new MemoryStore(450);
    const server = new MemoryServer();
    const told: (number | undefined)[] = [];
    const listening = {
      push: (request: PushRequest) => {
        told.push(request.status?.unsent);
        return server.push(request);
      },
    };
    const status = async () => ({ unsent: store.count("unsent"), battery: null, persisted: null, app: "test" });
    await sendAll(store, listening, status);
    expect(told).toEqual([250, 50, 0]);
  });

  test("C7, C8: a failure leaves everything unsent and says why", async () => {
    const store = new MemoryStore(4);
    const failing = {
      push: async (): Promise<PushOutcome> => ({
        ok: false,
        problem: problem("server/busy").problem,
        retryAfterSeconds: 7,
      }),
    };
    expect(await sendAll(store, failing, quiet)).toMatchObject({ done: "failed", retryAfterSeconds: 7 });
    expect(store.count("unsent")).toBe(4);
  });

  test("C8: a batch that is too large is halved until it fits", async () => {
    const store = new MemoryStore(40);
    const server = new MemoryServer();
    const narrow = {
      push: async (request: PushRequest): Promise<PushOutcome> =>
        request.events.length > 12
          ? { ok: false, problem: problem("request/too-large", { limit: "1 MiB" }).problem, retryAfterSeconds: null }
          : server.push(request),
    };
    expect(await sendAll(store, narrow, quiet)).toEqual({ done: "all-sent" });
    expect(server.held.size).toBe(40);
  });

  test("C17: a server that holds more of this device than the device does is a rolled-back device", async () => {
    const store = new MemoryStore(3);
    const ahead = {
      push: async (request: PushRequest): Promise<PushOutcome> => ({
        ok: true,
        reply: {
          incarnation,
          verdicts: request.events.map((text) => ({ id: `e${text.slice(5)}`, verdict: "fork" as const })),
          heads: { "study:s": 9 },
        },
      }),
    };
    expect(await sendAll(store, ahead, quiet)).toEqual({ done: "rolled-back" });
    expect(store.count("unsent")).toBe(3);
  });

  test("a server that forgets what it acknowledged again and again is given up for now, not asked for ever", async () => {
    const store = new MemoryStore(3);
    const server = new MemoryServer();
    const forgetful = {
      push: async (request: PushRequest): Promise<PushOutcome> => {
        const outcome = await server.push(request);
        server.held.clear();
        return outcome.ok ? { ok: true, reply: { ...outcome.reply, heads: {} } } : outcome;
      },
    };
    const outcome = await sendAll(store, forgetful, quiet);
    expect(outcome).toMatchObject({ done: "failed", problem: { code: "server/not-cloche" } });
    expect(server.pushes.length).toBeLessThan(10);
  });

  test("waiting doubles, stays at most a minute, is spread by chance, and honors the server's wish", () => {
    expect([1, 2, 3].map((failures) => backOff(failures, 0.999999, null)).map(Math.round)).toEqual([1000, 2000, 4000]);
    expect(backOff(50, 0.999999, null)).toBeLessThanOrEqual(60_000);
    expect(backOff(3, 0, null)).toBe(2000);
    expect(backOff(1, 0, 30)).toBe(30_000);
  });
});
