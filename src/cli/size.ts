import { discriminatorShareAt, familyOf } from "../analysis/method.ts";
import { findableBy, mostPeople, sizeOf } from "../design/panel-size.ts";
import { differenceTest, leadAt, likenessTest, type SizeTest } from "../design/size-test.ts";
import { problem } from "../model/problem.ts";
import { terminal } from "../words/en/terminal.ts";
import { portionSizeText } from "../words/en/terminal-portion-size.ts";
import { scaleSizeText } from "../words/en/terminal-scale-size.ts";
import { type SizeAnswer, sizeText } from "../words/en/terminal-size.ts";
import { type Computed, computedMethod, goalName, isDistance, limitOf, refuseGiven } from "./method-options.ts";
import { alphaOf, type Given, number, readGiven, required, whole } from "./options.ts";
import { asJson, type Output } from "./output.ts";
import { portionSize } from "./portion-size.ts";
import { scaleSize, scaleSizeOptions } from "./scale-size.ts";

export const sizeOptions = {
  method: "text",
  alpha: "text",
  beta: "text",
  pd: "text",
  dprime: "text",
  goal: "text",
  sides: "text",
  limit: "text",
  "dprime-limit": "text",
  people: "text",
  repeats: "text",
  ...scaleSizeOptions,
  json: "switch",
} as const;

const { expected } = terminal;

/** `cloche size`: how many people a test needs for an effect, or what so many people can find. */
export function size(argv: readonly string[], output: Output): void {
  const given = readGiven("size", argv, sizeOptions, null);
  if (given.text("method") === "chew-and-weigh") {
    const answer = portionSize(given);
    output.print(given.has("json") ? asJson(answer) : portionSizeText(answer));
    return;
  }
  const computed = computedMethod(given);
  if (computed.family === "scale") {
    const answer = scaleSize(given);
    output.print(given.has("json") ? asJson(answer) : scaleSizeText(answer));
    return;
  }
  refuseGiven(given, Object.keys(scaleSizeOptions), expected.notOfMethod(computed.method));
  const answer = sized(given, computed);
  output.print(given.has("json") ? asJson(answer) : sizeText(answer));
}

/** A test, the power that is asked of it, and how often it may be wrong. */
type Asked = { test: SizeTest; power: number; known: Pick<SizeAnswer, "alpha" | "beta" | "limit"> };

function sized(given: Given, computed: Computed): SizeAnswer {
  const { method, sides, family } = computed;
  if (family === "rank") {
    throw problem("cli/bad-option", { option: "--method", value: method, expected: expected.sizeable });
  }
  const goal = goalName(given, computed);
  const repeats = given.text("repeats") === null ? 1 : whole(given, "repeats", 1, 12);
  if (family !== "choice" || goal === "similarity") {
    refuseGiven(given, repeats > 1 ? ["repeats"] : [], expected.personIsUnit);
  }
  const asked = goal === "similarity" ? likeness(given, computed) : difference(given, computed, repeats);
  const found =
    given.text("people") === null ? peopleFor(asked) : withPeople(asked, whole(given, "people", 1, mostPeople), given);
  return { method, goal, sides, repeats, ...asked.known, rule: asked.test.rule, ...found };
}

/** Risk of missing what is there: above 0 and below 1. */
const betaOf = (given: Given, otherwise: number) =>
  number(given, "beta", otherwise, (value) => value > 0 && value < 1, expected.risk);

function difference(given: Given, computed: Computed, repeats: number): Asked {
  const { method, sides } = computed;
  const [alpha, beta] = [alphaOf(given), betaOf(given, 0.2)];
  const effect = effectOf(given, computed) ?? 0;
  const test = differenceTest(method, alpha, effect, { sides, repeats });
  return { test, power: 1 - beta, known: { alpha, beta, limit: null } };
}

/** Likeness is wanted where nobody can tell: alpha is then the risk of missing it. */
function likeness(given: Given, computed: Computed): Asked {
  refuseGiven(given, ["pd", "dprime"], expected.limitInstead);
  const alpha = number(given, "alpha", 0.2, (value) => value > 0 && value < 1, expected.risk);
  const { discriminatorShare, dPrime = null, beta } = limitOf(given, computed);
  const share = dPrime === null ? discriminatorShare : discriminatorShareAt(computed.method, dPrime);
  const test = likenessTest(computed.method, share, beta);
  const limit = { discriminatorShare: share, dPrime: dPrime ?? test.dPrime(share) };
  return { test, power: 1 - alpha, known: { alpha, beta, limit } };
}

/** What is sought, in the unit of the test; null when nothing is. */
function effectOf(given: Given, { method, sides }: Computed): number | null {
  const family = familyOf(method, sides);
  const [pd, distance] = [given.text("pd"), given.text("dprime")];
  if (pd !== null && distance !== null) refuseGiven(given, ["pd"], expected.oneEffect);
  if (pd !== null) {
    if (family === "kinds") refuseGiven(given, ["pd"], expected.onlyDistance(method));
    return number(given, "pd", 0.3, (value) => value > 0 && value <= 1, expected.pd);
  }
  if (distance === null) {
    if (given.text("people") === null) required(given, family === "kinds" ? "dprime" : "pd");
    return null;
  }
  if (method === "paired-preference") refuseGiven(given, ["dprime"], expected.onlyShare);
  const dPrime = number(given, "dprime", 1, isDistance, expected.distance);
  if (family === "kinds") return dPrime;
  return family === "pair" ? leadAt(dPrime) : discriminatorShareAt(method, dPrime);
}

type Found = Pick<SizeAnswer, "asked" | "effect" | "people" | "peopleStable" | "criticalNumber" | "power">;

function peopleFor({ test, power, known }: Asked): Found {
  const found = sizeOf(test, power);
  return {
    asked: "people",
    effect: known.limit === null ? effectIn(test, test.soughtAt) : null,
    people: found?.people ?? null,
    peopleStable: found?.peopleStable ?? null,
    criticalNumber: found?.criticalNumber ?? null,
    power: found?.power ?? null,
  };
}

/** What so many people find as often as asked for; where an effect or a limit was named, how often they do. */
function withPeople({ test, power, known }: Asked, people: number, given: Given): Found {
  const counts = { people, peopleStable: null, criticalNumber: test.criticalNumber(people) };
  if (known.limit !== null) {
    return { asked: "power", effect: null, ...counts, power: test.chance(people, test.soughtAt) };
  }
  if (given.text("pd") !== null || given.text("dprime") !== null) {
    const chance = test.chance(people, test.soughtAt);
    return { asked: "power", effect: effectIn(test, test.soughtAt), ...counts, power: chance };
  }
  const found = findableBy(test, people, power);
  return { asked: "effect", effect: found && effectIn(test, found.effect), ...counts, power: found?.power ?? null };
}

/** An effect in every measure that it has. */
function effectIn(test: SizeTest, effect: number): SizeAnswer["effect"] {
  return {
    discriminatorShare: test.unit === "share" ? effect : null,
    lead: test.unit === "lead" ? effect : null,
    dPrime: test.dPrime(effect),
  };
}
