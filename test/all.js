// Runs every check from a bare Debian machine with Node: installs what is missing, builds, then tests.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";

const top = join(import.meta.dirname, "..");
const wanted = process.argv.slice(2);

function run(command, args, options = {}) {
  process.stderr.write(`> ${command} ${args.join(" ")}\n`);
  const { status, error } = spawnSync(command, args, { cwd: top, stdio: "inherit", ...options });
  if (error || status !== 0) {
    process.stderr.write(`${command} ${args.join(" ")} failed${error ? `: ${error.message}` : ""}\n`);
    process.exit(status || 1);
  }
}
const has = (command) => spawnSync("sh", ["-c", `command -v ${command}`]).status === 0;

/** Debian packages for what the tests need and the machine lacks. */
function installSystem() {
  const packages = [];
  if (!has("chromium")) packages.push("chromium", "fonts-noto-core");
  if (!has("pdftotext")) packages.push("poppler-utils");
  if (!has("strace")) packages.push("strace");
  if (!has("openssl")) packages.push("openssl");
  if (!has("g++")) packages.push("g++");
  if (!has("make")) packages.push("make");
  if (!has("python3")) packages.push("python3");
  if (packages.length === 0) return;
  if (!has("apt-get")) {
    process.stderr.write(`The tests need ${packages.join(", ")}. Install them with this system's package manager.\n`);
    process.exit(1);
  }
  const prefix = process.getuid?.() === 0 ? [] : ["sudo"];
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const [first, ...rest] = [...prefix, "apt-get"];
  run(first, [...rest, "update", "-q"], { env });
  run(first, [...rest, "install", "-y", "-q", "--no-install-recommends", ...packages], { env });
}

/** Tests of rooms without window, disk or network, where one file leaves nothing behind that another could meet. */
const pure = ["analysis", "archive", "demo", "design", "log", "model", "words"];

/** The unit tests. Files of pure rooms share their workers: to load every module anew for each costs more than they do. */
function runUnit() {
  const unit = ["vitest", "run", "--project", "unit", "--maxWorkers", "2"];
  const entries = readdirSync(join(top, "test"), { withFileTypes: true });
  const shares = (entry) => entry.isDirectory() && pure.includes(entry.name);
  const paths = (some) => some.map((entry) => `test/${entry.name}${entry.isDirectory() ? "/" : ""}`);
  run("npx", [...unit, "--no-isolate", "--pool", "threads", ...paths(entries.filter(shares))]);
  run("npx", [...unit, ...paths(entries.filter((entry) => !shares(entry)))]);
}

installSystem();
if (!existsSync(join(top, "node_modules/.package-lock.json"))) run("npm", ["ci", "--no-fund", "--no-audit"]);
run("npm", ["run", "build"]);
if (wanted.length > 0) run("npx", ["vitest", "run", ...wanted]);
else {
  run("npm", ["run", "check"]);
  run("npm", ["run", "size"]);
  runUnit();
  run("npx", ["vitest", "run", "--project", "server"]);
  run("npx", ["vitest", "run", "--project", "e2e"]);
}
