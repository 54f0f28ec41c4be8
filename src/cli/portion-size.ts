import { pairedTest } from "../analysis/portion-power.ts";
import { pairPower, type ScaleTest } from "../analysis/scale-power.ts";
import { differenceHalfWidth } from "../design/interval-width.ts";
import { mostPeople } from "../design/panel-size.ts";
import { differenceFoundBy, scalePeople } from "../design/scale-size.ts";
import { terminal } from "../words/en/terminal.ts";
import type { PortionSizeAnswer } from "../words/en/terminal-portion-size.ts";
import { refuseGiven, requireSame } from "./method-options.ts";
import { alphaOf, type Given, number, required, whole } from "./options.ts";

const { expected } = terminal;

/** What the size of other methods asks for, and this one does not. */
const ofOthers = ["pd", "dprime", "limit", "dprime-limit", "per-tray", "people-deviation", "steps"] as const;

/**
 * `cloche size --method chew-and-weigh`: people for a difference of two gains, or what so many people find.
 *
 * Takes    `--products`: those compared, without a control; each but the first is compared with the first
 * Throws   Problem "cli/bad-option", "cli/missing-option"
 */
export function portionSize(given: Given): PortionSizeAnswer {
  refuseGiven(given, ofOthers, expected.gainsInstead);
  refuseGiven(given, ["repeats"], expected.meansOfPeople);
  requireSame(given, "goal", "difference", expected.gainsInstead);
  requireSame(given, "sides", "two", expected.gainsInstead);
  required(given, "deviation");
  const deviation = amount(given, "deviation");
  const products = given.text("products") === null ? 2 : whole(given, "products", 2, 12);
  const alpha = alphaOf(given);
  const beta = number(given, "beta", 0.2, (value) => value > 0 && value < 1, expected.risk);
  // the difference that is sought is filled in below
  const test = pairedTest({ alpha, comparisons: products - 1, difference: 1, deviation });
  const found = answered(given, test, 1 - beta);
  const { people } = found;
  return {
    ...{ method: "chew-and-weigh", goal: "difference", sides: "two", products, alpha, beta, deviation },
    ...{ rule: "noncentral-t", ...found },
    halfWidth:
      people === null || people < 2
        ? null
        : differenceHalfWidth({ products: 2, people, residualDeviation: test.deviation }),
  };
}

const amount = (given: Given, option: string): number =>
  number(given, option, 0, (value) => value >= 0.01 && value <= 100, expected.percentagePoints);

type Found = Pick<PortionSizeAnswer, "asked" | "people" | "difference" | "power">;

function answered(given: Given, test: ScaleTest, power: number): Found {
  if (given.text("people") === null) {
    required(given, "difference");
    const difference = amount(given, "difference");
    const found = scalePeople({ ...test, difference }, power);
    return { asked: "people", difference, people: found?.people ?? null, power: found?.power ?? null };
  }
  const people = whole(given, "people", 2, mostPeople);
  if (given.text("difference") !== null) {
    const difference = amount(given, "difference");
    return { asked: "power", difference, people, power: pairPower({ ...test, difference }, people) };
  }
  const difference = differenceFoundBy(test, people, power);
  const reached = difference === null ? null : pairPower({ ...test, difference }, people);
  return { asked: "effect", difference, people, power: reached };
}
