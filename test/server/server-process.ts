import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { request as httpsRequest } from "node:https";
import { join } from "node:path";
import type { EnrollReply, PushReply } from "../../src/model/http.ts";
import { callServer } from "./house.ts";

const entry = join(import.meta.dirname, "../../dist/rooms/cli/main.js");

export type Started = { args?: string[]; env?: Record<string, string>; uid?: number; command?: string[] };

/** A server in a process of its own, as `cloche start` runs it, on loopback. */
export class ServerProcess {
  readonly data: string;
  readonly app: string;
  output = "";
  errors = "";
  port = 0;
  child!: ChildProcess;
  #ended!: Promise<number | null>;

  /** `folder` holds the data and a small built app. */
  constructor(folder: string) {
    this.data = join(folder, "data");
    this.app = join(folder, "app");
    mkdirSync(this.app, { recursive: true });
    writeFileSync(join(this.app, "index.html"), "<!doctype html><title>start</title>");
  }

  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  /** Starts it on the port it had before, or a free one, and waits until it listens or has ended. */
  async start({ args = [], env = {}, uid, command = [] }: Started = {}): Promise<void> {
    const fixed = ["--host", "127.0.0.1", "--data", this.data, "--app", this.app];
    const [program = process.execPath, ...before] = [...command, process.execPath];
    const child = spawn(program, [...before, entry, "start", "--port", String(this.port), ...fixed, ...args], {
      stdio: ["ignore", "pipe", "pipe"],
      env: { ...process.env, ...env },
      ...(uid === undefined ? {} : { uid }),
    });
    this.child = child;
    this.output = "";
    this.errors = "";
    this.#ended = new Promise((done) => child.once("exit", done));
    child.stderr?.on("data", (chunk) => {
      this.errors += String(chunk);
    });
    const running = new Promise<void>((done) => {
      child.stdout?.on("data", (chunk) => {
        this.output += String(chunk);
        if (this.output.includes("Ctrl+C")) done();
      });
    });
    await Promise.race([running, this.#ended]);
    const port = /https?:\/\/localhost:(\d+)\//.exec(this.output)?.[1];
    if (port !== undefined) this.port = Number(port);
  }

  /** Sends a signal and waits for the end; returns the exit code, null when the signal ended it. */
  async end(signal: NodeJS.Signals): Promise<number | null> {
    if (this.child.exitCode === null && this.child.signalCode === null) this.child.kill(signal);
    return this.#ended;
  }

  ended = (): Promise<number | null> => this.#ended;

  /** The first lead, by the address that the start printed. */
  async lead(origin = this.origin): Promise<EnrollReply> {
    const code = /#setup=(\S+)/.exec(this.output)?.[1] ?? "none";
    return this.#enroll(code, origin);
  }

  async device(lead: EnrollReply, role: "panel" | "lead"): Promise<EnrollReply> {
    const body = { role, study: null, name: role };
    const { json } = await callServer(this.origin, "POST", "/api/codes", { token: lead.token, body });
    return this.#enroll((json as { code: string }).code, this.origin);
  }

  async #enroll(code: string, origin: string): Promise<EnrollReply> {
    const reply = await callServer(origin, "POST", "/api/enroll", { body: { code, name: "" } });
    if (reply.status !== 200) throw new Error(`not enrolled: ${reply.text} ${this.errors}`);
    return reply.json as EnrollReply;
  }
}

/** Pushes; null when there is no whole reply, so that nobody knows what became of it. */
export async function tryPush(origin: string, token: string, events: string[]): Promise<PushReply | null> {
  try {
    const body = { events, attachments: [], status: null };
    const { status, json } = await callServer(origin, "POST", "/api/events", { token, body });
    return status === 200 ? (json as PushReply) : null;
  } catch {
    return null;
  }
}

export type HttpsCall = { body?: unknown; token?: string };

/** A request over https that trusts one certificate authority and no other; a body makes it a POST. */
export function httpsCall(port: number, host: string, path: string, ca: string | undefined, call: HttpsCall = {}) {
  return new Promise<{ status: number; text: string; cookie: string }>((done, failed) => {
    const { body, token } = call;
    const headers = {
      host: `${host}:${port}`,
      ...(body === undefined ? {} : { "content-type": "application/json" }),
      ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
    };
    const method = body === undefined ? "GET" : "POST";
    const options = { host: "127.0.0.1", port, path, method, headers, servername: host, ca: ca ?? [] };
    const sent = httpsRequest(options, (response) => {
      let text = "";
      response.on("data", (chunk) => {
        text += String(chunk);
      });
      const cookie = response.headers["set-cookie"]?.[0] ?? "";
      response.on("end", () => done({ status: response.statusCode ?? 0, text, cookie }));
    });
    sent.on("error", failed);
    sent.end(body === undefined ? undefined : JSON.stringify(body));
  });
}
