import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { run } from "../../src/cli/run.ts";

const bin = join(import.meta.dirname, "../../src/cli/cloche.js");

export type Said = { code: number | null; out: string; err: string };

/** Runs the command as a terminal does, in a process of its own. */
export function cloche(...argv: string[]): Promise<Said> {
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, [bin, ...argv], { stdio: ["ignore", "pipe", "pipe"] });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", failed).on("close", (code) => done({ code, out, err }));
  });
}

/** Runs a command in this process: what it does is the same, without a second of starting. */
export async function inProcess(...argv: string[]): Promise<Said> {
  const said = { out: "", err: "" };
  const print = (text: string) => {
    said.out += `${text}\n`;
  };
  const note = (text: string) => {
    said.err += `${text}\n`;
  };
  return { code: await run(argv, { print, note }, "test"), ...said };
}

/** A folder for one test file, and a way to put files into it. */
export function folder(): {
  at: (name: string) => string;
  put: (name: string, text: string) => string;
  remove: () => void;
} {
  const path = mkdtempSync(join(tmpdir(), "cloche-cli-"));
  const at = (name: string) => join(path, name);
  return {
    at,
    put: (name, text) => {
      writeFileSync(at(name), text);
      return at(name);
    },
    remove: () => rmSync(path, { recursive: true, force: true }),
  };
}
