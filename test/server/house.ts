import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Writable } from "node:stream";
import type { FastifyInstance } from "fastify";
import type { EnrollReply, PushReply, Role } from "../../src/model/http.ts";
import { makeApp } from "../../src/server/app.ts";
import { openStore, type Store } from "../../src/server/query/store.ts";
import { firstLeadCode } from "../../src/server/routes/enroll.ts";

export type Reply = { status: number; headers: Headers; text: string; json: unknown };
export type Call = { token?: string; body?: unknown; raw?: string | Uint8Array; headers?: Record<string, string> };

export const scratch = (name: string): string => mkdtempSync(join(tmpdir(), `cloche-${name}-`));

/** A server in this process, listening on loopback, with a clock that the test moves and a log that it can read. */
export class House {
  readonly folder = scratch("house");
  /** 2026-05-03T10:00:00Z. */
  clock = Date.UTC(2026, 4, 3, 10);
  log = "";
  app!: FastifyInstance;
  store!: Store;
  origin = "";

  readonly #busyMs: number;

  private constructor(busyMs: number) {
    this.#busyMs = busyMs;
  }

  /** `busyMs`: how long it waits for a lock that somebody else holds on the database. */
  static async open({ busyMs = 5000 } = {}): Promise<House> {
    const house = new House(busyMs);
    await house.start();
    return house;
  }

  async start({ restored = false } = {}): Promise<void> {
    this.store = await openStore(join(this.folder, "data"), { busyMs: this.#busyMs, restored });
    const stream = new Writable({
      write: (chunk, _encoding, done) => {
        this.log += String(chunk);
        done();
      },
    });
    this.app = await makeApp({
      store: this.store,
      now: () => this.clock,
      staticFolder: builtApp(this.folder),
      log: { level: "info", stream },
      tls: null,
    });
    await this.app.listen({ host: "127.0.0.1", port: 0 });
    this.origin = `http://127.0.0.1:${(this.app.server.address() as AddressInfo).port}`;
  }

  /** Stops the server and keeps the data; `start` brings it back. */
  async stop(): Promise<void> {
    await this.app.close();
    await this.store.close();
  }

  async close(): Promise<void> {
    await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async call(method: string, path: string, { token, body, raw, headers = {} }: Call = {}): Promise<Reply> {
    return callServer(this.origin, method, path, {
      ...(token === undefined ? {} : { token }),
      ...(raw === undefined ? { body } : { raw }),
      headers,
    });
  }

  /** The first lead; later leads come by a code. */
  async lead(): Promise<EnrollReply> {
    const code = await firstLeadCode(this.store.db, this.clock);
    if (code === null) throw new Error("there is a lead already");
    return this.enroll(code, "Odalys's laptop");
  }

  async code(lead: { token: string }, role: Role, study: string | null = null): Promise<string> {
    const { status, json } = await this.call("POST", "/api/codes", {
      token: lead.token,
      body: { role, study, name: "Tablet" },
    });
    if (status !== 200) throw new Error(`no code: ${status}`);
    return (json as { code: string }).code;
  }

  async enroll(code: string, name = "", formerly?: string[]): Promise<EnrollReply> {
    const body = formerly === undefined ? { code, name } : { code, name, formerly };
    const { status, text, json } = await this.call("POST", "/api/enroll", { body });
    if (status !== 200) throw new Error(`not enrolled: ${status} ${text}`);
    return json as EnrollReply;
  }

  async device(lead: { token: string }, role: Role, study: string | null = null): Promise<EnrollReply> {
    return this.enroll(await this.code(lead, role, study));
  }

  async push(device: { token: string }, texts: string[], attachments: unknown[] = []): Promise<PushReply> {
    const body = { events: texts, attachments, status: null };
    const { status, text, json } = await this.call("POST", "/api/events", { token: device.token, body });
    if (status !== 200) throw new Error(`not pushed: ${status} ${text}`);
    return json as PushReply;
  }

  verdicts = async (device: { token: string }, texts: string[]): Promise<string[]> =>
    (await this.push(device, texts)).verdicts.map(({ verdict }) => verdict);
}

/** One request; the body as JSON, or as it is given. */
export async function callServer(
  origin: string,
  method: string,
  path: string,
  { token, body, raw, headers = {} }: Call = {},
): Promise<Reply> {
  const sent = raw ?? (body === undefined ? undefined : JSON.stringify(body));
  const response = await fetch(`${origin}${path}`, {
    method,
    redirect: "manual",
    headers: {
      ...(sent === undefined ? {} : { "content-type": "application/json" }),
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      ...headers,
    },
    ...(sent === undefined ? {} : { body: sent as string }),
  });
  const text = await response.text();
  let json: unknown = null;
  try {
    json = JSON.parse(text);
  } catch {
    // not JSON: the test looks at the text
  }
  return { status: response.status, headers: response.headers, text, json };
}

export const problemCode = (reply: Reply): string => (reply.json as { code: string }).code;

/** Files as the build leaves them, small. */
function builtApp(folder: string): string {
  const app = join(folder, "app");
  for (const part of ["organizer", "panel", "report", "assets"]) mkdirSync(join(app, part), { recursive: true });
  writeFileSync(join(app, "index.html"), "<!doctype html><title>start</title>");
  for (const part of ["organizer", "panel", "report"]) {
    writeFileSync(join(app, part, "index.html"), `<!doctype html><title>${part}</title>`);
    writeFileSync(join(app, part, "sw.js"), "// worker");
  }
  writeFileSync(join(app, "panel", "app.webmanifest"), "{}");
  writeFileSync(join(app, "assets", "panel-3f2a.js"), "export {}");
  writeFileSync(join(folder, "outside.txt"), "outside");
  return app;
}
