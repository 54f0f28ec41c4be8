import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import * as z from "zod/mini";
import { problem } from "../model/problem.ts";
import { read } from "../model/schema.ts";

const portNumber = z.number().check(z.int(), z.minimum(0), z.maximum(65_535));
const text = z.string().check(z.minLength(1), z.maxLength(4096));
const hostName = z.string().check(z.regex(/^[A-Za-z0-9]([A-Za-z0-9.-]{0,251}[A-Za-z0-9])?$/, "a host name"));

/** The one configuration object of the server. */
const options = z.strictObject({
  port: z._default(portNumber, 8080),
  host: z._default(text, "0.0.0.0"),
  data: z._default(text, "./cloche-data"),
  cert: z.optional(text),
  key: z.optional(text),
  "local-ca": z._default(z.boolean(), false),
  "trust-port": z.optional(portNumber),
  name: z.optional(hostName),
  "lead-link": z._default(z.boolean(), false),
  restored: z._default(z.boolean(), false),
  app: z.optional(text),
  verbose: z._default(z.boolean(), false),
});
export type Options = z.infer<typeof options>;

const numbers = ["port", "trust-port"];
const switches = ["local-ca", "lead-link", "restored", "verbose"];
const names = Object.keys(options.shape);

/**
 * Options from the command line, the environment (CLOCHE_PORT, …), the file that --config names, and the defaults,
 * in this order.
 *
 * Takes    command: what was typed after `cloche`, for what is said of a mistake
 * Returns  null when help was asked for
 * Throws   Problem "cli/…" for flags and environment, "file/…" for the file
 */
export function readOptions(
  argv: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
  command = "start",
): Options | null {
  const flags = parseFlags(argv, command);
  if (flags.help === true) return null;
  const fromEnv = Object.fromEntries(
    [...names, "config"].flatMap((name) => {
      const value = env[`CLOCHE_${name.toUpperCase().replaceAll("-", "_")}`];
      return value === undefined || value === "" ? [] : [[name, value]];
    }),
  );
  const { config, ...given }: Record<string, unknown> = { ...fromEnv, ...flags };
  const fromFile = config === undefined ? {} : readFile(String(config));
  for (const [name, value] of Object.entries(given)) given[name] = typed(name, value);
  const found = read(options, { ...fromFile, ...given }, ({ where, expected }) =>
    where in given || typeof config !== "string"
      ? problem("cli/bad-option", { option: `--${where}`, value: String(given[where]), expected })
      : problem("file/wrong-shape", { path: config, where, expected }),
  );
  requirePairs(found, command);
  return found;
}

function parseFlags(argv: readonly string[], command: string): Record<string, string | boolean> {
  const flags = Object.fromEntries(
    [...names, "config", "help"].map((name) => [
      name,
      { type: switches.includes(name) || name === "help" ? ("boolean" as const) : ("string" as const) },
    ]),
  );
  try {
    const { values } = parseArgs({ args: [...argv], options: flags, strict: true, allowPositionals: false });
    return values as Record<string, string | boolean>;
  } catch (error) {
    throw flagProblem(error, argv, command);
  }
}

function flagProblem(error: unknown, argv: readonly string[], command: string): unknown {
  const { code = "", message = "" } = error as { code?: string; message?: string };
  const quoted = /'(-[^' ]*)/.exec(message)?.[1] ?? /'([^']*)'/.exec(message)?.[1] ?? argv[0] ?? "";
  if (code === "ERR_PARSE_ARGS_UNKNOWN_OPTION" || code === "ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL") {
    return problem("cli/unknown-option", { option: quoted, command });
  }
  if (code === "ERR_PARSE_ARGS_INVALID_OPTION_VALUE") {
    const takesNone = switches.includes(quoted.replace(/^--/, ""));
    const expected = takesNone ? "given without a value" : "followed by a value";
    return problem("cli/bad-option", { option: quoted, value: "", expected });
  }
  return error;
}

function typed(name: string, value: unknown): unknown {
  if (typeof value !== "string") return value;
  if (numbers.includes(name)) return /^\d+$/.test(value) ? Number(value) : value;
  if (!switches.includes(name)) return value;
  if (["1", "true", "yes"].includes(value)) return true;
  return ["0", "false", "no"].includes(value) ? false : value;
}

function readFile(path: string): Record<string, unknown> {
  let content: string;
  try {
    content = readFileSync(path, "utf8");
  } catch {
    throw problem("file/not-found", { path });
  }
  try {
    return read(z.record(z.string(), z.unknown()), JSON.parse(content), (d) =>
      problem("file/wrong-shape", { path, ...d }),
    );
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    throw problem("file/not-json", { path, reason: error.message });
  }
}

function requirePairs({ cert, key, "local-ca": localCa }: Options, command: string): void {
  if ((cert === undefined) !== (key === undefined)) {
    throw problem("cli/missing-option", { option: cert === undefined ? "--cert" : "--key", command });
  }
  if (localCa && cert !== undefined) {
    throw problem("cli/bad-option", { option: "--local-ca", value: "true", expected: "left out when --cert is given" });
  }
}
