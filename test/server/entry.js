// Starts the built server as the terminal does: what goes wrong is one sentence on standard error and exit code 1.
import { runStart } from "../../dist/rooms/server/start.js";
import { sentenceOf } from "../../dist/rooms/words/problem-sentence.js";

runStart(process.argv.slice(2)).catch((error) => {
  process.stderr.write(`${sentenceOf(error)}\n`);
  process.exitCode = 1;
});
