import { readFileSync } from "node:fs";
import { run } from "./run.ts";

// a reader that stops early (| head) is no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exitCode = error.code === "EPIPE" ? 0 : 1;
});

// as compiled, this file stands three folders below the checkout
const file = new URL("../../../package.json", import.meta.url);
const { version } = JSON.parse(readFileSync(file, "utf8")) as { version: string };

process.exitCode = await run(
  process.argv.slice(2),
  {
    print: (text) => process.stdout.write(`${text}\n`),
    note: (text) => process.stderr.write(`${text}\n`),
  },
  version,
);
