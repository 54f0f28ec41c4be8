import { differenceKnown, pairPower, productsPower, type ScaleTest, seenShareOf } from "../analysis/scale-power.ts";
import { differenceHalfWidth } from "../design/interval-width.ts";
import { mostPeople } from "../design/panel-size.ts";
import { differenceFoundBy, scalePeople } from "../design/scale-size.ts";
import { terminal } from "../words/en/terminal.ts";
import type { ScaleSizeAnswer } from "../words/en/terminal-scale-size.ts";
import { refuseGiven } from "./method-options.ts";
import { alphaOf, type Given, number, required, whole } from "./options.ts";

const { expected } = terminal;

/** What only the size of a line scale asks for. */
export const scaleSizeOptions = {
  difference: "text",
  deviation: "text",
  products: "text",
  "per-tray": "text",
  "people-deviation": "text",
  steps: "text",
} as const;
/** What it does not. */
const ofOthers = ["pd", "dprime", "limit", "dprime-limit"] as const;

/**
 * `cloche size --method line-scale`: people for a difference in points or steps, or what so many people find.
 *
 * Throws   Problem "cli/bad-option", "cli/missing-option"
 */
export function scaleSize(given: Given): ScaleSizeAnswer {
  refuseGiven(given, ofOthers, expected.pointsInstead);
  required(given, "deviation");
  const scale = scaleOf(given);
  const deviation = amount(given, "deviation", scale);
  const seen = given.text("people-deviation") === null ? null : seenOf(given, scale);
  const test = { ...designOf(given), alpha: alphaOf(given), deviation, seenShare: seenShareOf(deviation, seen) };
  const beta = number(given, "beta", 0.2, (value) => value > 0 && value < 1, expected.risk);
  const { asked, people, difference, power } = answered(given, test, 1 - beta, scale);
  const effect = people !== null && difference !== null ? { ...test, difference } : null;
  const known = people !== null && differenceKnown({ ...test, people }).df >= 1;
  return {
    method: "line-scale",
    goal: "difference",
    sides: "two",
    ...test,
    steps: scale.steps,
    deviation: deviation / scale.unit,
    peopleDeviation: seen === null ? null : seen / scale.unit,
    beta,
    rule: "noncentral-t",
    asked,
    people,
    difference: difference === null ? null : difference / scale.unit,
    power,
    productsPower: effect && people !== null ? productsPower(effect, people) : null,
    halfWidth: known ? differenceHalfWidth({ ...test, people, residualDeviation: deviation }) / scale.unit : null,
  };
}

function designOf(given: Given): { products: number; perTray: number; repeats: number } {
  const products = given.text("products") === null ? 2 : whole(given, "products", 2, 12);
  const perTray = given.text("per-tray") === null ? products : whole(given, "per-tray", 2, products);
  return { products, perTray, repeats: given.text("repeats") === null ? 1 : whole(given, "repeats", 1, 12) };
}

/** `unit`: points of 100 that one step is, or one point. */
type Scale = { steps: number | null; unit: number; most: number };

function scaleOf(given: Given): Scale {
  if (given.text("steps") === null) return { steps: null, unit: 1, most: 100 };
  const steps = whole(given, "steps", 2, 11);
  return { steps, unit: 100 / (steps - 1), most: steps - 1 };
}

/** In points of 100: how far people differ in what they see: a part of the scatter, so no more than that. */
const seenOf = (given: Given, { steps, unit }: Scale): number => {
  const whole = Number(given.text("deviation"));
  const fits = (value: number) => value >= 0 && value <= whole;
  return unit * number(given, "people-deviation", 0, fits, expected.partOfDeviation(whole, steps));
};

/** In points of 100, what was given in points of the line or in steps. */
const amount = (given: Given, option: string, { steps, unit, most }: Scale): number =>
  unit * number(given, option, 0, (value) => value >= 0.01 && value <= most, expected.amount(steps, most));

type Found = Pick<ScaleSizeAnswer, "asked" | "people" | "difference" | "power">;

function answered(given: Given, test: Omit<ScaleTest, "difference">, power: number, scale: Scale): Found {
  if (given.text("people") === null) {
    required(given, "difference");
    const difference = amount(given, "difference", scale);
    const found = scalePeople({ ...test, difference }, power);
    return { asked: "people", difference, people: found?.people ?? null, power: found?.power ?? null };
  }
  const people = whole(given, "people", 1, mostPeople);
  if (given.text("difference") !== null) {
    const difference = amount(given, "difference", scale);
    return { asked: "power", difference, people, power: pairPower({ ...test, difference }, people) };
  }
  const difference = differenceFoundBy(test, people, power);
  const reached = difference === null ? null : pairPower({ ...test, difference }, people);
  return { asked: "effect", difference, people, power: reached };
}
