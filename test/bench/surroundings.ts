import { execFileSync } from "node:child_process";
import { readFileSync, statfsSync } from "node:fs";
import { cpus, loadavg, release, tmpdir, totalmem } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { runIndex } from "./cpu-index.ts";

const top = join(import.meta.dirname, "../..");

/** Everything that a figure depends on and that is not Cloche. */
export type Surroundings = {
  at: string;
  cloche: string;
  node: string;
  sqlite: string;
  chromium: string | null;
  r: string | null;
  system: string;
  cpu: string;
  cores: number;
  memoryGiB: number;
  /** Where the temporary folder lies; on a file system in memory nothing is ever flushed. */
  disk: string;
  load: number[];
  /** See cpu-index.ts; null without Chromium. */
  cpuIndex: number | null;
};

export async function lookAround(): Promise<Surroundings> {
  const browser = await runIndex();
  return {
    at: new Date().toISOString(),
    cloche: `${version()} ${commit()}`,
    node: process.version,
    sqlite: sqliteVersion(),
    chromium: browser?.version ?? null,
    r: rVersion(),
    system: `${process.platform} ${release()}`,
    cpu: cpus()[0]?.model ?? "unknown",
    cores: cpus().length,
    memoryGiB: Math.round(totalmem() / 2 ** 30),
    disk: isInMemory(tmpdir()) ? `${tmpdir()} in memory` : `${tmpdir()} on a disk`,
    load: loadavg(),
    cpuIndex: browser?.index ?? null,
  };
}

/** Is a folder on tmpfs or ramfs? The numbers are Linux's own names of the two. */
export function isInMemory(folder: string): boolean {
  return [0x01021994, 0x858458f6].includes(statfsSync(folder).type);
}

export function aroundLines(around: Surroundings): string[] {
  const { at, cloche, node, sqlite, chromium, r, system, cpu, cores, memoryGiB, disk, load, cpuIndex } = around;
  return [
    `Cloche ${cloche} at ${at}`,
    `Node ${node}, SQLite ${sqlite}, Chromium ${chromium ?? "not found"}, ${r ?? "R not found"}`,
    `${system}, ${cpu}, ${cores} cores, ${memoryGiB} GiB, ${disk}`,
    `load average ${load.map((one) => one.toFixed(2)).join(" ")}, CPU index ${cpuIndex ?? "unknown"}`,
  ];
}

/** What the program prints; null when it is not there or fails. */
function printed(program: string, args: string[]): string | null {
  try {
    return execFileSync(program, args, { cwd: top, stdio: ["ignore", "pipe", "ignore"] })
      .toString()
      .trim();
  } catch {
    return null;
  }
}

function version(): string {
  return (JSON.parse(readFileSync(join(top, "package.json"), "utf8")) as { version: string }).version;
}

function commit(): string {
  const id = printed("git", ["rev-parse", "--short", "HEAD"]);
  if (id === null) return "(no commit known)";
  return printed("git", ["status", "--porcelain"]) === "" ? id : `${id} with changes`;
}

const rVersion = (): string | null => printed("Rscript", ["--vanilla", "-e", "cat(R.version.string)"]);

function sqliteVersion(): string {
  const database = new Database(":memory:");
  const version = String(database.prepare("select sqlite_version()").pluck().get());
  database.close();
  return version;
}
