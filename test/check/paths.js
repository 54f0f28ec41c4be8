// Question: do README.md and DEVELOPERS.md name only paths and npm scripts that exist?
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

const top = join(import.meta.dirname, "../..");
const { scripts } = JSON.parse(readFileSync(join(top, "package.json"), "utf8"));
const missing = [];
for (const page of ["README.md", "DEVELOPERS.md"]) {
  const text = readFileSync(join(top, page), "utf8");
  const named = [
    ...text.matchAll(/`((?:src|test|public|\.ci)\/[\w./-]*)`/g),
    ...text.matchAll(/\]\(((?!https?:)[\w./-]+)\)/g),
  ];
  for (const [, path] of named)
    if (!existsSync(join(top, path))) missing.push(`${page} names ${path}, which does not exist`);
  for (const [, script] of text.matchAll(/npm run ([\w-]+)/g)) {
    if (!scripts[script]) missing.push(`${page} names npm run ${script}, which package.json does not have`);
  }
}
for (const line of missing) process.stderr.write(`${line}\n`);
process.exitCode = missing.length > 0 ? 1 : 0;
