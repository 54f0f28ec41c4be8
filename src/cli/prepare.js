// Installs and builds a checkout when needed. Plain JavaScript: it runs before anything is compiled.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { isBuilt, noteBuilt, sourcesNow } from "./freshness.js";

const checkout = join(import.meta.dirname, "../..");
const say = (line) => process.stderr.write(`${line}\n`);

/** What is built: the compiled rooms that every command runs, and the app that the server gives out. */
const rooms = {
  name: "rooms",
  result: "dist/rooms/cli/.tsbuildinfo",
  tool: "node_modules/typescript/bin/tsc",
  args: ["-b", "src/cli"],
  except: ["src/ui", "src/panel", "src/organizer", "src/report", "src/device"],
};
const app = {
  name: "app",
  result: "dist/app/.vite/manifest.json",
  tool: "node_modules/vite/bin/vite.js",
  args: ["build"],
  except: ["src/server", "src/cli"],
};

/**
 * Makes sure that what a command needs is installed and built; quick when nothing changed.
 * Returns the address of the compiled program, or null when that failed: then a line has been said and the exit code set.
 */
export function prepare(withApp, top = checkout) {
  const wanted = withApp ? [rooms, app] : [rooms];
  const done = () => isInstalled(top) && wanted.every((part) => isBuilt(top, part));
  if (!done() && !alone(top, () => done() || (install(top) && wanted.every((part) => build(top, part))))) {
    process.exitCode = 1;
    return null;
  }
  return pathToFileURL(join(top, "dist/rooms/cli/main.js")).href;
}

/** Is what package-lock.json names installed? By time first, and when that is in doubt by name and version. */
export function isInstalled(top) {
  const lock = join(top, "package-lock.json");
  const installed = join(top, "node_modules/.package-lock.json");
  if (!existsSync(installed)) return false;
  if (statSync(installed).mtimeMs >= statSync(lock).mtimeMs) return true;
  const there = JSON.parse(readFileSync(installed, "utf8")).packages;
  const asked = Object.entries(JSON.parse(readFileSync(lock, "utf8")).packages);
  return asked.every(([path, { version, optional }]) => path === "" || optional || there[path]?.version === version);
}

function install(top) {
  if (isInstalled(top)) return true;
  say("Cloche installs its packages (npm ci); this is needed once and takes a few minutes.");
  // the tools that build are development packages, whatever the environment says about production
  const npm = run(top, process.platform === "win32" ? "npm.cmd" : "npm", [
    "ci",
    "--include=dev",
    "--no-fund",
    "--no-audit",
  ]);
  if (npm) return true;
  say(
    "Installing failed; the lines above say why. Where SQLite has to be compiled it needs python3, make and g++ (on Debian: apt-get install python3 make g++). Then try again.",
  );
  return false;
}

function build(top, part) {
  if (isBuilt(top, part)) return true;
  say(
    `Cloche builds its ${part.name} (${part.name === "app" ? "vite build" : "tsc -b"}); this is needed after every change.`,
  );
  const sources = sourcesNow(top, part);
  if (!run(top, process.execPath, [join(top, part.tool), ...part.args])) {
    say(`Building the ${part.name} failed; the lines above say where. Nothing was started.`);
    return false;
  }
  noteBuilt(top, part, sources);
  return true;
}

/** Runs a tool to its end; what it prints goes to standard error, so that standard output stays the command's own. */
function run(top, command, args) {
  const { status, error } = spawnSync(command, args, {
    cwd: top,
    stdio: ["ignore", 2, 2],
    shell: command.endsWith(".cmd"),
  });
  if (error) say(`${command}: ${error.message}`);
  return status === 0;
}

/** Does the work while no other start of Cloche installs or builds in this checkout; waits for one that does. */
function alone(top, work) {
  const mark = join(top, "dist/.preparing");
  mkdirSync(join(top, "dist"), { recursive: true });
  let waited = false;
  while (!claimed(mark)) {
    if (!waited) say("Another start of Cloche is installing or building here; this one waits for it.");
    waited = true;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
  }
  try {
    return work();
  } finally {
    rmSync(mark, { force: true });
  }
}

function claimed(mark) {
  try {
    writeFileSync(mark, String(process.pid), { flag: "wx" });
    return true;
  } catch (error) {
    if (error.code !== "EEXIST") throw error;
    if (isAbandoned(mark)) rmSync(mark, { force: true });
    return false;
  }
}

/** Was the mark left by a process that is gone? One that is still empty was made this moment. */
function isAbandoned(mark) {
  try {
    const owner = Number(readFileSync(mark, "utf8"));
    if (!owner) return Date.now() - statSync(mark).mtimeMs > 10_000;
    process.kill(owner, 0);
    return false;
  } catch (error) {
    return error.code === "ESRCH";
  }
}
