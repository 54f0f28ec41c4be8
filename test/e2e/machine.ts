import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type LaunchOptions, type Page } from "playwright-core";

const top = join(import.meta.dirname, "../..");

/** Chromium of the distribution: CLOCHE_CHROMIUM, or what the shell finds. */
const executablePath =
  process.env.CLOCHE_CHROMIUM ?? execFileSync("sh", ["-c", "command -v chromium"]).toString().trim();
/**
 * Parts of the browser's own window that nobody sees without a screen, above all two pages of its address bar that it
 * draws at each start: a quarter of what a start and sixty clicks cost. A list given here takes the place of the one that
 * playwright-core gives, so what of that concerns this browser stands here too.
 */
const withoutFeatures = [
  ...["WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup"],
  ...["AimEnabled", "AvoidCorsURLLoaderRestartOnRedirect", "AvoidUnnecessaryBeforeUnloadCheckSync"],
  ...["DestroyProfileOnBrowserClose", "HttpsFirstBalancedModeAutoEnable", "HttpsUpgrades", "LensOverlay"],
  ...["MediaRouter", "NetworkTimeServiceQuerying", "OptimizationHints", "PaintHolding", "PreconnectToSearch"],
  ...["ThirdPartyStoragePartitioning"],
];
export const options: LaunchOptions = {
  executablePath,
  headless: true,
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    `--disable-features=${withoutFeatures.join(",")}`,
  ],
};

export const tablet = { width: 1080, height: 810 };
export const laptop = { width: 1280, height: 900 };

export const scratch = (name: string): { folder: string; remove: () => void } => {
  const folder = mkdtempSync(join(tmpdir(), `cloche-${name}-`));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
};

/** A browser with a profile on disk: what is durable survives `kill`, which ends the whole process tree at once. */
export class Machine {
  readonly profile: string;
  readonly viewport: { width: number; height: number };
  #context: BrowserContext | null = null;

  constructor(profile: string, viewport: { width: number; height: number }) {
    this.profile = profile;
    this.viewport = viewport;
  }

  async start(): Promise<BrowserContext> {
    const touch = this.viewport === tablet;
    this.#context = await chromium.launchPersistentContext(this.profile, {
      ...options,
      viewport: this.viewport,
      hasTouch: touch,
      reducedMotion: "reduce",
    });
    return this.#context;
  }

  /** The page opened last, while the browser runs. */
  page(): Page | undefined {
    return this.#context?.pages().at(-1);
  }

  /** SIGKILL to every process that has this profile on its command line, then the locks that it left. */
  async kill(): Promise<void> {
    const pids = execFileSync("sh", ["-c", `pgrep -f -- "--user-data-dir=${this.profile}" || true`])
      .toString()
      .split("\n");
    for (const pid of pids.filter(Boolean)) {
      try {
        process.kill(Number(pid), "SIGKILL");
      } catch {
        // it ended by itself meanwhile
      }
    }
    await this.#context?.close().catch(() => undefined);
    this.#context = null;
    for (const lock of ["SingletonLock", "SingletonCookie", "SingletonSocket"])
      rmSync(join(this.profile, lock), { force: true });
  }

  async close(): Promise<void> {
    await this.#context?.close();
    this.#context = null;
  }
}

/** A port that was free a moment ago, so that a killed server can come back under the same address. */
export async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((listening) => probe.listen(0, "127.0.0.1", listening));
  const address = probe.address();
  await new Promise((closed) => probe.close(closed));
  if (address === null || typeof address === "string") throw new Error("no port");
  return address.port;
}

/** A real server process of the built app on loopback. */
export class ServerProcess {
  readonly origin: string;
  readonly #port: number;
  readonly #data: string;
  #child: ChildProcess | null = null;
  output = "";

  constructor(port: number, data: string) {
    this.#port = port;
    this.#data = data;
    this.origin = `http://localhost:${port}`;
  }

  async start(): Promise<void> {
    const main = join(top, "dist/rooms/cli/main.js");
    const args = [main, "start", "--port", String(this.#port), "--host", "127.0.0.1", "--data", this.#data];
    const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "pipe"] });
    this.#child = child;
    this.output = "";
    child.stdout?.on("data", (text) => {
      this.output += text;
    });
    child.stderr?.on("data", (text) => {
      this.output += text;
    });
    for (;;) {
      if (child.exitCode !== null) throw new Error(`the server ended: ${this.output}`);
      const alive = await fetch(`${this.origin}/healthz`)
        .then((r) => r.ok)
        .catch(() => false);
      if (alive) return;
      await new Promise((next) => setTimeout(next, 50));
    }
  }

  /** The one-time set-up address that the start printed. */
  setupAddress(): string {
    const found = this.output.match(/https?:\/\/\S*\/organizer\/#setup=\S+/);
    if (!found) throw new Error(`no set-up address in: ${this.output}`);
    return found[0].replace(/\/\/[^/]+/, `//localhost:${this.#port}`);
  }

  async end(signal: "SIGKILL" | "SIGTERM"): Promise<number | null> {
    const child = this.#child;
    if (!child || child.exitCode !== null) return null;
    const ended = new Promise<number | null>((done) => child.once("exit", (code) => done(code)));
    child.kill(signal);
    this.#child = null;
    return ended;
  }
}
