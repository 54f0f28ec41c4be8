#!/usr/bin/env node
// The command: plain JavaScript, so that it runs from a fresh checkout. It installs and builds what is missing, then
// becomes the compiled program in this same process. All it says itself goes to standard error.
import { nodeComplaint } from "./node-version.js";

const complaint = nodeComplaint(process.version);
if (complaint) {
  process.stderr.write(`${complaint}\n`);
  process.exitCode = 1;
} else {
  import("./prepare.js")
    .then(({ prepare }) =>
      prepare(
        ["start", "demo"].includes(process.argv[2]) && !["--help", "-h"].some((word) => process.argv.includes(word)),
      ),
    )
    .then((main) => (main ? import(main) : undefined))
    .catch((error) => {
      process.stderr.write(`Cloche could not be started: ${error instanceof Error ? error.message : error}\n`);
      process.exitCode = 1;
    });
}
