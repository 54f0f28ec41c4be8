import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as z from "zod/mini";
import { demoPassphrase } from "../../src/demo/chance.ts";
import { enrollReply, studiesReply } from "../../src/model/http.ts";
import { demoTerminal } from "../../src/words/en/demo.ts";
import { inProcess } from "../cli/terminal.ts";
import { callServer, scratch } from "./house.ts";

/** `cloche demo` as a terminal runs it. */
const entry = join(import.meta.dirname, "../../dist/rooms/cli/main.js");
let folder: string;
let child: ChildProcess | null = null;
beforeEach(() => {
  folder = scratch("demo");
  mkdirSync(join(folder, "app"));
  writeFileSync(join(folder, "app/index.html"), "<!doctype html><title>start</title>");
});
afterEach(() => {
  child?.kill("SIGKILL");
  child = null;
  rmSync(folder, { recursive: true, force: true });
});

/** Starts it and returns what it printed up to `until`; then it runs on. */
async function demo(until: RegExp, ...argv: string[]): Promise<string> {
  const fixed = ["--host", "127.0.0.1", "--port", "0", "--app", join(folder, "app")];
  const started = spawn(process.execPath, [entry, "demo", ...fixed, ...argv], { stdio: ["ignore", "pipe", "pipe"] });
  child = started;
  let out = "";
  return new Promise((done, failed) => {
    started.stderr.setEncoding("utf8").on("data", (text: string) => failed(new Error(text)));
    started.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
      if (until.test(out)) done(out);
    });
    started.on("exit", (code) => failed(new Error(`it ended with ${code}: ${out}`)));
  });
}

async function stopped(): Promise<number | null> {
  const ending = child;
  return new Promise((done) => {
    ending?.removeAllListeners("exit").on("exit", (code) => done(code));
    ending?.kill("SIGTERM");
  });
}

const printed = z.strictObject({
  invented: z.literal(true),
  addresses: z.array(z.string()),
  setUp: z.array(z.string()).check(z.minLength(1)),
  tablets: z.array(z.string()),
  folder: z.string(),
  passphrase: z.string(),
  studies: z.array(z.strictObject({ id: z.string(), title: z.string(), state: z.enum(["revealed", "locked"]) })),
});

test("--json prints one document; with its set-up address a lead gets in and finds the twelve studies", async () => {
  const where = join(folder, "mine");
  const said = z.parse(printed, JSON.parse(await demo(/^\}$/m, "--json", "--folder", where)));
  expect(said.folder).toBe(where);
  expect(existsSync(join(where))).toBe(true);
  expect(said.passphrase).toBe(demoPassphrase());
  expect(said.studies.map(({ state }) => state)).toEqual([...Array(11).fill("revealed"), "locked"]);
  const [origin = "", code = ""] = (said.setUp[0] ?? "").split("/organizer/#setup=");
  const { json } = await callServer(origin, "POST", "/api/enroll", { body: { code, name: "Odalys Brandt" } });
  const { token, role } = z.parse(enrollReply, json);
  expect(role).toBe("lead");
  const { studies } = z.parse(studiesReply, (await callServer(origin, "GET", "/api/studies", { token })).json);
  expect(studies.map(({ id }) => id).sort()).toEqual(said.studies.map(({ id }) => id).sort());
  expect(await stopped()).toBe(0);
});

test("without --json it tells what start tells, the studies, and the passphrase", async () => {
  const out = await demo(/Ctrl\+C/, "--folder", join(folder, "mine"));
  expect(out).toContain("/organizer/#setup=");
  expect(out).toContain(demoPassphrase());
  expect(out.match(/\(with a report\)/g)).toHaveLength(11);
  expect(out.match(/\(locked\)/g)).toHaveLength(1);
  // another start would be another demo
  expect(out).not.toContain("--lead-link");
  expect(await stopped()).toBe(0);
});

test("a folder with something in it is refused and left alone", async () => {
  const before = readdirSync(folder);
  const { code, out, err } = await inProcess("demo", "--folder", folder);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain(`${folder} is not empty.`);
  expect(readdirSync(folder)).toEqual(before);
});

test.each([
  ["a temporary folder", []],
  ["a folder that was named", ["--folder", "named"]],
])("a port that is taken: one sentence, and %s is as it was", async (_, more) => {
  const taken = createServer();
  await new Promise<void>((listening) => taken.listen(0, "127.0.0.1", listening));
  const { port } = taken.address() as AddressInfo;
  const temporary = join(folder, "tmp");
  mkdirSync(temporary);
  mkdirSync(join(folder, "named"));
  const argv = ["demo", "--host", "127.0.0.1", "--port", String(port), "--app", join(folder, "app"), ...more];
  const env = { ...process.env, TMPDIR: temporary };
  const ended = spawnSync(process.execPath, [entry, ...argv], { cwd: folder, env });
  expect([ended.status, String(ended.stdout)]).toEqual([1, ""]);
  expect(String(ended.stderr)).toMatch(new RegExp(`^[^\n]*${port}[^\n]*\n$`));
  expect([readdirSync(temporary), readdirSync(join(folder, "named"))]).toEqual([[], []]);
  await new Promise((closed) => taken.close(closed));
});

test.each([
  [["--data", "x"], "demo has no option “--data”. See cloche demo --help.\n"],
  [["--restored"], "demo has no option “--restored”. See cloche demo --help.\n"],
  [["--prot", "1"], "demo has no option “--prot”. See cloche demo --help.\n"],
  [["--folder"], "--folder"],
  [["--port", "70000"], "--port"],
])("%j is a caller's mistake, in one sentence", async (argv, sentence) => {
  const { code, out, err } = await inProcess("demo", ...argv);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain(sentence);
  expect(err.split("\n")).toHaveLength(2);
});

test("--help starts nothing", async () => {
  expect(await inProcess("demo", "--help")).toEqual({ code: 0, out: `${demoTerminal.help}\n`, err: "" });
});
