import { closeSync, openSync, readFileSync, unlinkSync, writeFileSync } from "node:fs";
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

/** A file that is to be made; a secret one may be read by its owner only. */
export type NewFile = { path: string; text: string; secret: boolean };

/**
 * Makes new files, all of them or none; one that exists is never overwritten.
 * Throws   Problem "file/unwritable" for the first that cannot be made
 */
export function writeNew(files: readonly NewFile[]): void {
  const opened: { path: string; text: string; handle: number }[] = [];
  let path = "";
  try {
    for (const file of files) {
      path = file.path;
      opened.push({ ...file, handle: openSync(path, "wx", file.secret ? 0o600 : 0o666) });
    }
    for (const file of opened) {
      path = file.path;
      writeFileSync(file.handle, file.text);
    }
  } catch (thrown) {
    // half of a draw is worth nothing, and would stand in the way of the next one
    for (const file of opened) unlinkSync(file.path);
    throw problem("file/unwritable", { path, reason: reasonOf(thrown) });
  } finally {
    for (const file of opened) closeSync(file.handle);
  }
}

const codeOf = (thrown: unknown): string => (thrown instanceof Error && "code" in thrown ? String(thrown.code) : "");

/** What the system says, without path and call: "permission denied". */
function reasonOf(thrown: unknown): string {
  const errno = thrown instanceof Error && "errno" in thrown ? Number(thrown.errno) : 0;
  return getSystemErrorMap().get(errno)?.[1] ?? String(thrown);
}
