import { Problem, type ProblemCode, problem } from "../model/problem.ts";
import { terminal } from "../words/en/terminal.ts";
import { rehearsalTerminal } from "../words/en/terminal-rehearsal.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { count } from "./count.ts";
import type { Output } from "./output.ts";
import { rehearse } from "./rehearse.ts";
import { result } from "./result.ts";
import { size } from "./size.ts";
import { trays } from "./trays.ts";

const commands = ["start", "demo", "trays", "rehearse", "result", "count", "size"];

/** Problems of the surroundings, not of what was typed or of a file that was given. */
const surroundings: readonly ProblemCode[] = [
  "start/port-busy",
  "start/cannot-listen",
  "start/folder-unwritable",
  "start/certificate",
  "start/database-damaged",
  "start/not-built",
];

/**
 * Runs one command.
 *
 * Takes    argv: the words after `cloche`; output: where results and notices go; version: of the app
 * Returns  the exit code: 0; 2 for something the caller can correct, 1 for anything else. Errors are one sentence
 */
export async function run(argv: readonly string[], output: Output, version: string): Promise<number> {
  try {
    await runCommand(argv, output, version);
    return 0;
  } catch (thrown) {
    output.note(sentenceOf(thrown));
    return thrown instanceof Problem && !surroundings.includes(thrown.problem.code) ? 2 : 1;
  }
}

async function runCommand([command, ...rest]: readonly string[], output: Output, version: string): Promise<void> {
  if (command === undefined || command === "--help" || command === "-h" || command === "help") {
    return output.print(terminal.help);
  }
  if (command === "--version") return output.print(version);
  switch (command) {
    case "start": {
      // read only here: the other commands need neither a server nor a database
      const { runStart } = await import("../server/start.ts");
      return await runStart(rest.map((word) => (word === "-h" ? "--help" : word)));
    }
    case "demo": {
      const { runDemo } = await import("./demo.ts");
      return await runDemo(rest, output, version);
    }
    case "rehearse": {
      if (rest.includes("--help") || rest.includes("-h")) return output.print(rehearsalTerminal.help);
      return await rehearse(rest, output, version);
    }
    case "trays":
    case "result":
    case "count":
    case "size": {
      if (rest.includes("--help") || rest.includes("-h")) return output.print(terminal.commandHelp[command]);
      const run = { trays, result, count, size }[command];
      return run(rest, output, version);
    }
    default:
      throw problem("cli/unknown-command", { command, known: commands.join(", ") });
  }
}
