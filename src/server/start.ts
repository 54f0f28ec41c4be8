import { once } from "node:events";
import { existsSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import type { FastifyInstance } from "fastify";
import { limits } from "../model/http.ts";
import { problem } from "../model/problem.ts";
import { startWords } from "../words/en/server.ts";
import { addressOf, isEverywhere, isLoopback, reachableHosts } from "./addresses.ts";
import { makeApp } from "./app.ts";
import { type Options, readOptions } from "./options.ts";
import { dropEndlessCodes } from "./query/codes.ts";
import { openStore, type Store } from "./query/store.ts";
import { firstLeadCode, leadGrant, makeCode } from "./routes/enroll.ts";
import { daysLeft, readCertificate } from "./tls/certificate.ts";
import type { LocalCa } from "./tls/local-ca.ts";
import { trustServer } from "./tls/trust-page.ts";

/** What a command that starts a server may add. */
export type Opening = {
  /**
   * Called before anybody else can reach the server: `origin` is a private address of it, `leadCode` makes a lead. A
   * lead that is to be set up by hand afterwards needs that one withdrawn again.
   */
  before: (origin: string, leadCode: string) => Promise<void>;
  /** Called once all can reach it. */
  ready: (running: Running) => void;
  /** Where the usual lines go. */
  say: (text: string) => void;
};
/** Where a server runs, and the addresses that make the first lead's device; none when there is a lead. */
export type Running = { local: string; network: string[]; setUp: string[] };

/** Requests still running after a stop signal get this long; then their connections are cut. */
const graceMs = 10_000;
const warnDays = 14;

/**
 * Runs the server until SIGINT or SIGTERM.
 *
 * Takes    argv: what stands after `cloche start`
 * Returns  when the server has stopped, requests in flight answered and the database closed; at once for --help
 * Throws   Problem "cli/…", "file/…" or "start/…", before anything is served
 */
export async function runStart(argv: readonly string[]): Promise<void> {
  const options = readOptions(argv, process.env);
  if (!options) return sayAloud(startWords.help);
  await serveUntilStopped(options, { say: sayAloud });
}

/**
 * Runs the server with options that were read, until SIGINT or SIGTERM. Returns and throws as `runStart`.
 */
export async function serveUntilStopped(options: Options, opening: Partial<Opening> = {}): Promise<void> {
  const staticFolder = builtApp(options.app);
  const store = await openStore(resolve(options.data), { restored: options.restored });
  try {
    if (opening.before) {
      // what comes before may take long: an address that is taken is told first
      await requireFree(options);
      await onItsOwn(store, opening.before);
    }
    await run(options, store, staticFolder, opening);
  } finally {
    await store.close();
  }
}

/**
 * Runs a server on a free port of this computer alone, without the app, for as long as some work takes.
 *
 * Takes    folder: for its data, none that a kitchen uses; work: gets its address and a code that makes the first lead
 */
export async function serveFor(folder: string, work: Opening["before"]): Promise<void> {
  const store = await openStore(resolve(folder), { restored: false });
  try {
    await onItsOwn(store, work);
  } finally {
    await store.close();
  }
}

/** Serves on a free port of this computer alone, without the app, while something is done through the API. */
async function onItsOwn(store: Store, work: Opening["before"]): Promise<void> {
  const app = await makeApp({ store, now: Date.now, staticFolder: null, log: false, tls: null });
  try {
    const code = (await firstLeadCode(store.db, Date.now())) ?? "";
    const port = await listening(app.server, "127.0.0.1", 0, () => app.listen({ host: "127.0.0.1", port: 0 }));
    await work(`http://127.0.0.1:${port}`, code);
  } finally {
    await app.close();
  }
}

async function run(options: Options, store: Store, staticFolder: string, opening: Partial<Opening>): Promise<void> {
  const { say = sayAloud, ready } = opening;
  const hosts = reachableHosts(options.host, options.name);
  const ca = options["local-ca"] ? await authorityOf(options, hosts) : null;
  const tls = ca?.tls ?? certificateOf(options);
  const log = { level: options.verbose ? "info" : "warn", stream: process.stderr };
  const scheme = tls ? "https" : "http";
  // a network may give this computer another address later; a certificate of our own names those of the start alone
  const addresses = (): string[] => {
    const { port } = app.server.address() as AddressInfo;
    return (ca ? hosts : reachableHosts(options.host, options.name)).map((host) => addressOf(scheme, host, port));
  };
  const app = await makeApp({ store, now: Date.now, staticFolder, log, tls, addresses });
  const stopped = stopSignal();
  let trust: Server | null = null;
  try {
    const port = await listening(app.server, options.host, options.port, () =>
      app.listen({ host: options.host, port: options.port }),
    );
    const near = isEverywhere(options.host) || isLoopback(options.host);
    const local = addressOf(scheme, near ? "localhost" : options.host, port);
    const network = hosts.map((host) => addressOf(scheme, host, port)).filter((address) => address !== local);
    const setUp = await announce(options, store, { local, network }, say);
    if (tls) announceEnd(tls.cert, say);
    if (ca) trust = await announceTrust(options, ca, port, { hosts, app: [local, ...network] }, say);
    ready?.({ local, network, setUp });
    say(startWords.stop);
    await stopped;
  } finally {
    await closed(app, trust);
  }
  say(startWords.stopped);
}

/** The folder of the built app, beside the compiled rooms; a checkout without a build is told so. */
function builtApp(given: string | undefined): string {
  const folder = given === undefined ? fileURLToPath(new URL("../../app", import.meta.url)) : resolve(given);
  if (!existsSync(join(folder, "index.html"))) throw problem("start/not-built", { path: folder });
  return folder;
}

async function authorityOf(options: Options, hosts: readonly string[]): Promise<LocalCa> {
  // the library that makes certificates loads slowly, and most servers make none
  const { localCa } = await import("./tls/local-ca.ts");
  return localCa(resolve(options.data), hosts, Date.now());
}

function certificateOf({ cert, key }: Options) {
  return cert === undefined || key === undefined ? null : readCertificate(cert, key);
}

/** Throws Problem "start/port-busy" or "start/cannot-listen" where nothing could be served. */
async function requireFree({ host, port }: Options): Promise<void> {
  const probe = createServer();
  await listening(probe, host, port, () => {
    probe.listen(port, host);
    return once(probe, "listening");
  });
  probe.close();
  await once(probe, "close");
}

/** Starts to listen and returns the port; the system's refusal becomes a Problem. */
async function listening(server: Server, host: string, port: number, start: () => Promise<unknown>): Promise<number> {
  try {
    await start();
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : String(error);
    if (code === "EADDRINUSE") throw problem("start/port-busy", { port });
    throw problem("start/cannot-listen", { host, port, reason: code });
  }
  return (server.address() as AddressInfo).port;
}

async function announce(
  options: Options,
  store: Store,
  addresses: { local: string; network: string[] },
  say: Opening["say"],
): Promise<string[]> {
  const { local, network } = addresses;
  say(startWords.running(addresses));
  say(startWords.tablets(network.length > 0 ? network : [local]));
  say(startWords.data(resolve(options.data)));
  if (options.restored) say(startWords.restored);
  if (network.length > 0 && local.startsWith("http:")) say(startWords.plainHttp);
  const links = (code: string) => [local, ...network].map((address) => `${address}organizer/#setup=${code}`);
  await dropEndlessCodes(store.db);
  // on a server without a lead there is nothing to guard yet, so its code may wait; later ones are as short-lived as any
  const first = await firstLeadCode(store.db, Date.now());
  if (first !== null) {
    say(startWords.firstLead(links(first)));
    say(startWords.leadLinkHint);
    return links(first);
  }
  if (options["lead-link"]) {
    const { code } = await makeCode(store.db, leadGrant, Date.now(), limits.codeMinutes);
    say(startWords.moreLead(links(code)));
    return links(code);
  }
  return [];
}

function announceEnd(cert: string, say: Opening["say"]): void {
  const days = daysLeft(cert, Date.now());
  if (days < warnDays) say(startWords.certificateEnds(days));
}

async function announceTrust(
  options: Options,
  ca: LocalCa,
  appPort: number,
  at: { hosts: readonly string[]; app: readonly string[] },
  say: Opening["say"],
): Promise<Server> {
  const { hosts } = at;
  const server = trustServer(ca, at.app);
  const { host } = options;
  const wanted = options["trust-port"] ?? (options.port === 0 ? 0 : appPort + 1);
  const port = await listening(server, host, wanted, () => {
    return new Promise((done, failed) => server.once("error", failed).listen(wanted, host, () => done(null)));
  });
  const places = hosts.length > 0 ? hosts : ["localhost"];
  say(startWords.trust(places.map((place) => addressOf("http", place, port))));
  say(startWords.fingerprint(ca.fingerprint));
  if (ca.made) say(startWords.authorityMade);
  return server;
}

function stopSignal(): Promise<void> {
  return new Promise((done) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => done());
  });
}

async function closed(app: FastifyInstance, trust: Server | null): Promise<void> {
  const cut = setTimeout(() => app.server.closeAllConnections(), graceMs);
  cut.unref();
  trust?.close();
  trust?.closeAllConnections();
  await app.close();
  clearTimeout(cut);
}

function sayAloud(text: string): void {
  process.stdout.write(`${text}\n`);
}
