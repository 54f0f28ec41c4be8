import { readFileSync, writeFileSync } from "node:fs";
import { getSystemErrorMap } from "node:util";
import { problem } from "../model/problem.ts";

/** The text of a file. Throws Problem "file/not-found", "file/unreadable". */
export function readText(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (thrown) {
    if (codeOf(thrown) === "ENOENT") throw problem("file/not-found", { path });
    throw problem("file/unreadable", { path, reason: reasonOf(thrown) });
  }
}

/**
 * Writes a new file; one that exists is never overwritten. A secret one may be read by its owner only.
 * Throws   Problem "file/unwritable"
 */
export function writeNew(path: string, text: string, secret: boolean): void {
  try {
    writeFileSync(path, text, { flag: "wx", mode: secret ? 0o600 : 0o666 });
  } catch (thrown) {
    throw problem("file/unwritable", { path, reason: reasonOf(thrown) });
  }
}

const codeOf = (thrown: unknown): string => (thrown instanceof Error && "code" in thrown ? String(thrown.code) : "");

/** What the system says, without path and call: "permission denied". */
function reasonOf(thrown: unknown): string {
  const errno = thrown instanceof Error && "errno" in thrown ? Number(thrown.errno) : 0;
  return getSystemErrorMap().get(errno)?.[1] ?? String(thrown);
}
