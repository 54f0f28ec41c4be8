// Question: how heavy is what a tablet has to load, and does any of it reach a room it must not?
// Prints the compressed bytes of each entry's static and dynamic graph; fails past the limits in package.json.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

const top = join(import.meta.dirname, "../..");
const app = join(top, "dist/app");
const limits = JSON.parse(readFileSync(join(top, "package.json"), "utf8")).size;
const manifest = JSON.parse(readFileSync(join(app, ".vite/manifest.json"), "utf8"));

/** What an entry loads; `later`: what it loads by itself after its start, too. */
function filesOf(entry, later) {
  const seen = new Set();
  const files = new Set();
  const queue = [entry];
  for (let name = queue.pop(); name; name = queue.pop()) {
    const chunk = manifest[name];
    if (!chunk || seen.has(name)) continue;
    seen.add(name);
    for (const file of [chunk.file, ...(chunk.css ?? [])]) files.add(file);
    queue.push(...(chunk.imports ?? []), ...(later ? (chunk.dynamicImports ?? []) : []));
  }
  return [...files];
}

let failed = false;
for (const [name, limit] of Object.entries(limits)) {
  // "panel" limits what a tablet must have to start; "panelWhole" all that it loads
  const entry = name === "panelWhole" ? "panel" : name;
  const files = filesOf(`${entry}/index.html`, name !== "panel");
  const bytes = files.map((file) => gzipSync(readFileSync(join(app, file)), { level: 9 }).length);
  const total = bytes.reduce((sum, size) => sum + size, 0);
  const over = total > limit;
  failed ||= over || files.length === 0;
  process.stdout.write(
    `${name}: ${total} bytes gzip in ${files.length} files, limit ${limit}${over ? ": TOO HEAVY" : ""}\n`,
  );
}

// The build itself fails when a panel chunk holds a forbidden room (vite.config.ts). This looks at the bytes again.
// Names are minified away, so it looks for words that only those rooms say.
const planted = /PBKDF2|AES-GCM|odd sample|guessing panels|\bAAB\b/;
for (const file of filesOf("panel/index.html", true)) {
  const text = readFileSync(join(app, file), "utf8");
  const found = text.match(planted);
  if (found) {
    failed = true;
    process.stdout.write(`panel: ${file} holds ${found[0]}, which belongs to a room no tablet may load\n`);
  }
}
process.exitCode = failed ? 1 : 0;
