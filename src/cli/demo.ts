import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { demoPassphrase } from "../demo/chance.ts";
import { type Ask, prepareDemo } from "../demo/load.ts";
import type { DemoStudy } from "../demo/studies.ts";
import { deviceInfo, enrollReply } from "../model/http.ts";
import { newEventId, newId } from "../model/id.ts";
import { Problem, problem } from "../model/problem.ts";
import { type Options, readOptions } from "../server/options.ts";
import { type Running, serveUntilStopped } from "../server/start.ts";
import { demoTerminal } from "../words/en/demo.ts";
import { startWords } from "../words/en/server.ts";
import { terminal } from "../words/en/terminal.ts";
import { askOf } from "./ask.ts";
import { asJson, type Output } from "./output.ts";

const command = "demo";
/** Options of `start` that would put the demo among a kitchen's own data. */
const notHere = ["--data", "--restored", "--lead-link"];

/**
 * `cloche demo`: a server with the demo in a folder of its own, until SIGINT or SIGTERM.
 *
 * Takes    argv: what stands after `cloche demo`; version: of the app
 * Throws   Problem "cli/…", "demo/folder-not-empty", and what starting a server throws
 */
export async function runDemo(argv: readonly string[], output: Output, version: string): Promise<void> {
  const given = ownOptions(argv);
  const options = given.help ? null : readOptions(given.rest, withoutData(process.env), command);
  if (!options) return output.print(demoTerminal.help);
  const data = given.folder === null ? mkdtempSync(join(tmpdir(), "cloche-demo-")) : emptyFolder(given.folder);
  try {
    await serve(given, { ...options, data }, output, version);
  } catch (thrown) {
    // a Problem comes before anything is served: nobody has done anything here, and the next try needs it empty
    if (thrown instanceof Problem) clear(data, given.folder === null);
    throw thrown;
  }
}

function clear(folder: string, whole: boolean): void {
  const paths = whole ? [folder] : existsSync(folder) ? readdirSync(folder).map((name) => join(folder, name)) : [];
  for (const path of paths) rmSync(path, { recursive: true, force: true });
}

async function serve(given: Given, options: Options, output: Output, version: string): Promise<void> {
  let studies: DemoStudy[] = [];
  await serveUntilStopped(options, {
    before: async (origin, leadCode) => {
      studies = await load(askOf(origin), leadCode, version);
    },
    // the hint is of a second start, which would be another demo
    say: (line) => (given.json || line === startWords.leadLinkHint ? undefined : output.print(line)),
    ready: (running) =>
      output.print(given.json ? asJson(document(running, options.data, studies)) : text(given, studies)),
  });
}

type Given = { folder: string | null; json: boolean; help: boolean; rest: string[] };

/** Takes the demo's own options out; the others are those of `start`. */
function ownOptions(argv: readonly string[]): Given {
  const given: Given = { folder: null, json: false, help: false, rest: [] };
  const words = [...argv];
  for (let word = words.shift(); word !== undefined; word = words.shift()) {
    const option = word.split("=")[0] ?? word;
    if (notHere.includes(option)) throw problem("cli/unknown-option", { option, command });
    if (option === "--folder") given.folder = folderOf(word, words);
    else if (word === "--json") given.json = true;
    else if (word === "--help" || word === "-h") given.help = true;
    else given.rest.push(word);
  }
  return given;
}

function folderOf(word: string, after: string[]): string {
  const value = word.includes("=") ? word.slice(word.indexOf("=") + 1) : (after.shift() ?? "");
  if (value !== "" && !value.startsWith("--")) return value;
  throw problem("cli/bad-option", { option: "--folder", value: "", expected: terminal.expected.value });
}

/** The environment may name a kitchen's data; the demo stays away from it. */
const withoutData = ({ CLOCHE_DATA: _data, CLOCHE_RESTORED: _restored, ...rest }: NodeJS.ProcessEnv) => rest;

function emptyFolder(path: string): string {
  const folder = resolve(path);
  if (existsSync(folder) && (!statSync(folder).isDirectory() || readdirSync(folder).length > 0)) {
    throw problem("demo/folder-not-empty", { path: folder });
  }
  return folder;
}

/** Loads the demo as a lead of its own, who is withdrawn again: the first lead is whoever sets up a device by hand. */
async function load(ask: Ask, leadCode: string, version: string): Promise<DemoStudy[]> {
  const { device, token } = await ask(enrollReply, "/api/enroll", { body: { code: leadCode, name: "cloche demo" } });
  const { studies, send } = await prepareDemo(ask, token, {
    newStudyId: newId,
    newEventId,
    offsetMinutes: new Date(2026, 4, 12).getTimezoneOffset(),
    app: version,
  });
  await send();
  await ask(deviceInfo, `/api/devices/${device}`, { token, body: { revoked: true } });
  return studies;
}

const text = (given: Given, studies: readonly DemoStudy[]): string =>
  [
    demoTerminal.loaded(studies),
    demoTerminal.passphrase(demoPassphrase()),
    ...(given.folder === null ? [demoTerminal.temporary] : []),
  ].join("\n");

function document({ local, network, setUp }: Running, folder: string, studies: readonly DemoStudy[]) {
  return {
    invented: true,
    addresses: [local, ...network],
    setUp,
    tablets: [local, ...network].map((address) => `${address}panel/`),
    folder,
    passphrase: demoPassphrase(),
    studies: studies.map(({ id, title, revealed }) => ({ id, title, state: revealed ? "revealed" : "locked" })),
  };
}
