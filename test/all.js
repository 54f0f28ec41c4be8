// Runs every check from a bare Debian machine with Node: installs what is missing, builds, then tests.
import { spawn, spawnSync } from "node:child_process";
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

/** One command beside others: what it prints is shown when it has ended, so that lines of two never mix. */
async function runBeside(command, args) {
  process.stderr.write(`> ${command} ${args.join(" ")} (beside the end-to-end tests)\n`);
  const child = spawn(command, args, { cwd: top, stdio: ["ignore", "pipe", "pipe"] });
  const printed = [];
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (bytes) => printed.push(bytes));
  const failure = await new Promise((ended) => {
    child.once("error", (error) => ended(error.message));
    child.once("close", (code, signal) => ended(code === 0 ? null : `ended with ${signal ?? code}`));
  });
  process.stdout.write(Buffer.concat(printed));
  if (failure !== null) throw new Error(`${command} ${args.join(" ")}: ${failure}`);
}

/** Changes modules for itself (`vi.mock`), so it has a worker of its own. */
const alone = "test/methods/ninth-method.test.ts";

/** Folders of unit tests; of the folder where the one lies that runs alone, its other files. */
function sharing() {
  const folders = readdirSync(join(top, "test"), { withFileTypes: true }).filter((entry) => entry.isDirectory());
  return folders.flatMap(({ name }) => {
    if (!alone.startsWith(`test/${name}/`)) return [`test/${name}/`];
    const files = readdirSync(join(top, "test", name)).map((file) => `test/${name}/${file}`);
    return files.filter((file) => /\.test\.tsx?$/.test(file) && file !== alone);
  });
}

/**
 * The unit tests. Files share one worker for each environment: to load every module and a window anew for each costs
 * more than they do. What a file leaves in the window or in storage, test/patience.ts takes away before the next.
 */
async function runUnit() {
  const unit = ["vitest", "run", "--project", "unit", "--maxWorkers", "1"];
  await runBeside("npx", [...unit, "--no-isolate", ...sharing()]);
  await runBeside("npx", [...unit, alone]);
}

/** Everything that needs no browser, one after the other. */
async function withoutBrowser() {
  await runBeside("npm", ["run", "size"]);
  await runUnit();
  // files come one after the other, each with folders, ports and processes of its own: they can share a worker too
  await runBeside("npx", ["vitest", "run", "--project", "server", "--no-isolate"]);
}

/** Browser tests wait for pages, disks and one another much of the time: the rest runs on what they leave of two cores. */
async function everything() {
  run("npm", ["run", "check"]);
  const browser = spawn("npx", ["vitest", "run", "--project", "e2e"], { cwd: top, stdio: "inherit" });
  const ended = new Promise((done) => {
    browser.once("error", (error) => done(error.message));
    browser.once("close", (code, signal) => done(code === 0 ? null : `ended with ${signal ?? code}`));
  });
  const failures = await Promise.all([
    ended.then((failure) => failure && `npx vitest run --project e2e: ${failure}`),
    withoutBrowser().then(
      () => null,
      (thrown) => thrown.message,
    ),
  ]);
  for (const failure of failures.filter(Boolean)) process.stderr.write(`failed: ${failure}\n`);
  if (failures.some(Boolean)) process.exitCode = 1;
}

installSystem();
if (!existsSync(join(top, "node_modules/.package-lock.json"))) run("npm", ["ci", "--no-fund", "--no-audit"]);
run("npm", ["run", "build"]);
if (wanted.length > 0) run("npx", ["vitest", "run", ...wanted]);
else await everything();
