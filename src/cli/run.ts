import { Problem, type ProblemCode, problem } from "../model/problem.ts";
import { terminal } from "../words/en/terminal.ts";
import { rehearsalTerminal } from "../words/en/terminal-rehearsal.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import type { Output } from "./output.ts";

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

// a command is read only when it is asked for: a server needs no analysis, and the others neither server nor database
async function runCommand([command, ...rest]: readonly string[], output: Output, version: string): Promise<void> {
  if (command === undefined || command === "--help" || command === "-h" || command === "help") {
    return output.print(terminal.help);
  }
  if (command === "--version") return output.print(version);
  switch (command) {
    case "start": {
      const { runStart } = await import("../server/start.ts");
      return await runStart(rest.map((word) => (word === "-h" ? "--help" : word)));
    }
    case "demo": {
      const { runDemo } = await import("./demo.ts");
      return await runDemo(rest, output, version);
    }
    case "rehearse": {
      if (rest.includes("--help") || rest.includes("-h")) return output.print(rehearsalTerminal.help);
      const { rehearse } = await import("./rehearse.ts");
      return await rehearse(rest, output, version);
    }
    case "trays":
    case "result":
    case "count":
    case "size": {
      if (rest.includes("--help") || rest.includes("-h")) return output.print(terminal.commandHelp[command]);
      const run = await commandOf(command);
      return run(rest, output, version);
    }
    default:
      throw problem("cli/unknown-command", { command, known: commands.join(", ") });
  }
}

type Command = (argv: readonly string[], output: Output, version: string) => void | Promise<void>;

async function commandOf(name: "trays" | "result" | "count" | "size"): Promise<Command> {
  switch (name) {
    case "trays":
      return (await import("./trays.ts")).trays;
    case "result":
      return (await import("./result.ts")).result;
    case "count":
      return (await import("./count.ts")).count;
    case "size":
      return (await import("./size.ts")).size;
  }
}
