import { openParts } from "../design/readiness.ts";
import { makeTrays, type Trays } from "../design/trays.ts";
import { newId } from "../model/id.ts";
import type { OpenedKey } from "../model/key.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { trayLabel } from "../model/tray.ts";
import { commitmentOf, withSalt } from "../seal/commitment.ts";
import { cryptoUniform, newSeed } from "../seal/random.ts";
import { planPartNames } from "../words/en/planning.ts";
import { terminal } from "../words/en/terminal.ts";
import { readText, writeNew } from "./files.ts";
import { type Given, readGiven } from "./options.ts";
import { asJson, columns, type Output } from "./output.ts";
import { readPlan } from "./plan-file.ts";

export const traysOptions = { seed: "text", blind: "text", key: "text", json: "switch" } as const;

type Drawn = { plan: Plan; study: string; trays: Trays; opened: OpenedKey; commitment: string };

/** `cloche trays PLAN`: the blind half and the sealed half of a serving plan, the latter in plain text. */
export function trays(argv: readonly string[], output: Output): void {
  const given = readGiven("trays", argv, traysOptions, "PLAN");
  const path = given.argument ?? "";
  const { plan, oneWave } = readPlan(readText(path), path);
  const drawn = draw(plan, seedOf(given));
  if (oneWave) output.note(terminal.notices.oneWave(plan.people));
  const open = new Set(openParts(plan).map(({ part }) => planPartNames[part].toLowerCase()));
  if (open.size > 0) output.note(terminal.notices.notReady([...open]));
  give(given, drawn, output);
}

function seedOf(given: Given): string {
  const value = given.text("seed");
  if (value === null) return newSeed();
  if (/^[0-9a-f]{2,128}$/i.test(value)) return value.toLowerCase();
  throw problem("cli/bad-option", { option: "--seed", value, expected: terminal.expected.hex });
}

function draw(plan: Plan, seed: string): Drawn {
  const study = newId();
  const made = makeTrays(plan, study, { seed, codes: cryptoUniform() });
  const opened = withSalt(made.key);
  return { plan, study, trays: made, opened, commitment: commitmentOf(opened) };
}

/** Each half goes to its file, or else to standard output. */
function give(given: Given, drawn: Drawn, output: Output): void {
  const { study, commitment, trays: made, opened } = drawn;
  const halves = {
    blind: { study, commitment, seats: made.seats, pots: made.pots, blind: made.blind },
    key: { study, commitment, sealed: { seed: opened.key.seed, salt: opened.salt, key: opened.key } },
  };
  const files = { blind: given.text("blind"), key: given.text("key") };
  writeNew([
    ...(files.key === null ? [] : [{ path: files.key, text: `${asJson(halves.key)}\n`, secret: true }]),
    ...(files.blind === null ? [] : [{ path: files.blind, text: `${asJson(halves.blind)}\n`, secret: false }]),
  ]);
  output.note(files.key === null ? terminal.notices.holdsKey : terminal.notices.fileHoldsKey(files.key));
  if (given.has("json")) {
    const shown = { ...(files.blind === null ? halves.blind : {}), ...(files.key === null ? halves.key : {}) };
    output.print(asJson({ study, commitment, ...shown }));
    return;
  }
  const texts = [
    `${terminal.study(study)}\n${terminal.commitment(commitment)}`,
    ...(files.blind === null ? [blindText(made)] : []),
    ...(files.key === null ? [keyText(drawn)] : []),
  ];
  output.print(texts.join("\n\n"));
}

function blindText({ blind, seats }: Trays): string {
  const { tray, wave, seat, codes, spare } = terminal.trayColumns;
  const seatOf = new Map(seats.flatMap((each) => each.trays.map((number) => [number, each.seat] as const)));
  const rows = blind.map((each) => [
    trayLabel(each.tray),
    String(each.wave),
    String(seatOf.get(each.tray) ?? ""),
    each.codes.join(" "),
    each.spare ? spare : "",
  ]);
  return `${terminal.headings.blind}\n${columns([[tray, wave, seat, codes, ""], ...rows]).replace(/ +$/gm, "")}`;
}

function keyText({ plan, opened: { key } }: Drawn): string {
  const { tray, order, reference, samples } = terminal.trayColumns;
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  // the cup that carries no code, of the methods that have one
  const referred = key.trays.some((each) => each.reference);
  const rows = key.trays.map((each) => [
    trayLabel(each.tray),
    each.order,
    ...(each.reference ? [`${names.get(each.reference.product) ?? ""} (${each.reference.batch})`] : []),
    ...each.samples.map(({ code, product, batch }) => `${code} ${names.get(product) ?? product} (${batch})`),
  ]);
  const table = columns([[tray, order, ...(referred ? [reference] : []), samples], ...rows]).replace(/ +$/gm, "");
  return `${terminal.headings.sealed}\n${terminal.seed(key.seed)}\n${table}`;
}
