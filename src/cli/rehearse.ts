import { analyse } from "../analysis/analyse.ts";
import { describe } from "../analysis/describe.ts";
import { rehearse as play, playStudy, seedOfPlay, usualScatter, usualWorlds } from "../design/rehearsal.ts";
import { forRehearsal } from "../design/rehearsal-plan.ts";
import { seeksLikeness } from "../design/size-test.ts";
import { playsOfRehearsal, type Rehearsal, type RehearsalAsked, rehearsalAsked } from "../model/rehearsal.ts";
import { read } from "../model/schema.ts";
import { newSeed } from "../seal/random.ts";
import { report } from "../words/en/report.ts";
import { terminal } from "../words/en/terminal.ts";
import { rehearsalTerminal as words } from "../words/en/terminal-rehearsal.ts";
import { readText } from "./files.ts";
import { type Given, number, readGiven, whole } from "./options.ts";
import { asJson, type Output } from "./output.ts";
import { readPlan } from "./plan-file.ts";

export const rehearseOptions = {
  times: "text",
  effect: "text",
  deviation: "text",
  seed: "text",
  "through-server": "switch",
  json: "switch",
} as const;

/** `cloche rehearse PLAN`: how often a study of this plan finds what is there, and how often what is not. */
export async function rehearse(argv: readonly string[], output: Output, app: string): Promise<void> {
  const given = readGiven("rehearse", argv, rehearseOptions, "PLAN");
  const asked = askedOf(given);
  const rehearsal = played(asked, app);
  const through = given.has("through-server") ? await throughServer(asked, app, output) : [];
  if (given.has("json")) return output.print(asJson({ invented: true, ...rehearsal, throughServer: through }));
  output.print(textOf(asked, rehearsal, through));
}

function askedOf(given: Given): RehearsalAsked {
  const path = given.argument ?? "";
  const { plan } = readPlan(readText(path), path);
  const { rightly, most } = usualWorlds(plan);
  const { least, usual } = playsOfRehearsal;
  return read(rehearsalAsked, {
    plan,
    effect: number(given, "effect", rightly, (value) => value <= most, terminal.expected.upTo(most)),
    deviation: number(given, "deviation", usualScatter(plan), (v) => v > 0 && v <= 100, terminal.expected.points),
    plays: given.text("times") === null ? usual : whole(given, "times", least, playsOfRehearsal.most),
    seed: given.text("seed") ?? newSeed().slice(0, 8),
  });
}

function played(asked: RehearsalAsked, app: string): Rehearsal {
  const going = play(asked, app);
  for (;;) {
    const step = going.next();
    if (step.done) return step.value;
  }
}

type Through = { trays: number; events: number; verdict: string };

/** The studies that are shown, once more over HTTP; their results must be those computed without it. */
async function throughServer({ plan, ...asked }: RehearsalAsked, app: string, output: Output): Promise<Through[]> {
  // read only here: the other commands need neither a server nor a database
  const { playThrough } = await import("./rehearse-through.ts");
  if (plan.stopping.rule !== "fixed") output.note(words.looksLeftOut);
  const whole = forRehearsal({ ...plan, stopping: { rule: "fixed" } });
  const through: Through[] = [];
  for (let at = 1; at <= 3; at++) {
    const study = playStudy(whole, asked, seedOfPlay(asked.seed, "rightly", at), app);
    const { record, trays, events } = await playThrough(study, app, () => new Date().toISOString());
    through.push({ trays, events, verdict: describe(analyse(record, app), report).verdict });
  }
  return through;
}

function textOf({ plan }: RehearsalAsked, rehearsal: Rehearsal, through: readonly Through[]): string {
  const goal = seeksLikeness(plan) ? "similarity" : "difference";
  const examples = rehearsal.examples.map((result, at) => {
    const { verdict, size } = describe(result, report);
    const went = through[at];
    return [
      words.example(at + 1, result.judgments),
      `  ${verdict}`,
      `  ${size}`,
      ...(went ? [words.through(went.trays, went.events)] : []),
    ].join("\n");
  });
  return [
    words.head(rehearsal),
    words.world(rehearsal, goal, "rightly"),
    words.world(rehearsal, goal, "wrongly"),
    `${words.examples}:\n${examples.join("\n")}`,
  ].join("\n\n");
}
