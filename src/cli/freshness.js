// Does a build still match its sources? By size and time of each file first, which is quick; by content in doubt.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Everything a build is made from. */
const sources = ["src", "public", "package.json", "package-lock.json", "vite.config.ts", "tsconfig.json"];

/**
 * Is a part built from the sources as they are now?
 *
 * Takes    top: the checkout; part: { name, result, except }: `result` is a file that its build writes last,
 *          `except` the folders that it is not built from
 * Returns  true when the note of its last build matches the sources, or when the result is newer than that note and
 *          than every source (somebody built by hand)
 */
export function isBuilt(top, { name, result, except }) {
  const made = join(top, result);
  if (!existsSync(made)) return false;
  const files = listed(top, except);
  const note = noteOf(top, name);
  if (note?.stamp === stampOf(files)) return true;
  const newest = Math.max(...files.map((file) => file.time));
  const builtByHand = statSync(made).mtimeMs > Math.max(newest, note?.time ?? 0);
  const now = { stamp: stampOf(files), content: contentOf(top, files) };
  if (!builtByHand && note?.content !== now.content) return false;
  noteBuilt(top, { name }, now);
  return true;
}

/** What the sources of a part are now: taken before a build and noted after it, so that a change meanwhile is seen. */
export function sourcesNow(top, { except }) {
  const files = listed(top, except);
  return { stamp: stampOf(files), content: contentOf(top, files) };
}

/** Notes what a part was built from. */
export function noteBuilt(top, { name }, { stamp, content }) {
  mkdirSync(join(top, "dist"), { recursive: true });
  writeFileSync(noteFile(top, name), JSON.stringify({ stamp, content }));
}

const noteFile = (top, name) => join(top, `dist/.built-${name}`);

function noteOf(top, name) {
  const file = noteFile(top, name);
  if (!existsSync(file)) return null;
  try {
    return { ...JSON.parse(readFileSync(file, "utf8")), time: statSync(file).mtimeMs };
  } catch {
    // a note that cannot be read says nothing
    return null;
  }
}

/** Files and folders with size and time, sorted; folders too, since a deleted file changes only its folder's time. */
function listed(top, except) {
  const found = [];
  const walk = (path) => {
    if (except.includes(path)) return;
    const full = join(top, path);
    const status = statSync(full, { throwIfNoEntry: false });
    if (!status) return;
    const folder = status.isDirectory();
    found.push({ path, size: folder ? 0 : status.size, time: status.mtimeMs, folder });
    if (folder) for (const name of readdirSync(full).sort()) walk(`${path}/${name}`);
  };
  for (const source of sources) walk(source);
  return found;
}

const hash = (text) => createHash("sha256").update(text).digest("hex");
const stampOf = (files) => hash(files.map(({ path, size, time }) => `${path} ${size} ${time}`).join("\n"));

function contentOf(top, files) {
  const plain = files.filter(({ folder }) => !folder);
  return hash(plain.map(({ path }) => `${path} ${hash(readFileSync(join(top, path)))}`).join("\n"));
}
