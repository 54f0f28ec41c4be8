import { percent, shortNumber, wholeNumber } from "../number.ts";

/**
 * What `cloche size --method line-scale` answers, with full precision. Differences and deviations are in steps where the
 * scale has `steps`, else in points, which are hundredths of the line.
 */
export type ScaleSizeAnswer = {
  method: "line-scale";
  goal: "difference";
  sides: "two";
  products: number;
  perTray: number;
  repeats: number;
  steps: number | null;
  alpha: number;
  beta: number;
  /** Supposed: residual deviation of one mark. */
  deviation: number;
  /** Supposed of it: how far people differ in how they see the products; null: nothing was said. And its share of the variance. */
  peopleDeviation: number | null;
  seenShare: number;
  /** Each pair by itself; of several pairs at alpha over their number. */
  rule: "noncentral-t";
  asked: "people" | "effect" | "power";
  difference: number | null;
  people: number | null;
  /** Of the contrast of two products; and of the F test of all, for the means that are hardest to find. */
  power: number | null;
  productsPower: number | null;
  /** Half of the 95 % interval of a difference, each pair by itself. */
  halfWidth: number | null;
};

/** The answer in plain words, a sentence a line. */
export function scaleSizeText(answer: ScaleSizeAnswer): string {
  return [headLine(answer), ...foundLines(answer), ...besideLines(answer), supposed(answer)].join("\n");
}

/** The unit of the scale behind a number. */
const inUnit =
  ({ steps }: Pick<ScaleSizeAnswer, "steps">) =>
  (value: number): string =>
    `${shortNumber(value, 3)}\u00a0${steps === null ? "points" : "steps"}`;

const headLine = ({ products, perTray, alpha, beta }: ScaleSizeAnswer): string =>
  `line-scale, ${products} products${perTray < products ? `, ${perTray} on a tray` : ""}, two-sided: risk of a false alarm ${risk(alpha)}, of missing it ${risk(beta)}.`;

export const risk = (share: number): string => `${shortNumber(share * 100, 6)}\u00a0%`;

function foundLines(answer: ScaleSizeAnswer): string[] {
  const { asked, people, difference, power, repeats, beta, steps } = answer;
  const points = inUnit(answer);
  const panel = `${people === 1 ? "1 person" : `${wholeNumber(people ?? 0)} people`}${repeats > 1 ? ` with ${repeats} trays each` : ""}`;
  if (people === null || power === null || difference === null) {
    return [
      asked === "people"
        ? `More than ${wholeNumber(mostPeople)} people would be needed for ${points(difference ?? 0)}.`
        : `${panel} cannot find even ${points(steps === null ? 100 : steps - 1)} ${percent(1 - beta)} of the time.`,
    ];
  }
  if (asked === "effect") {
    return [
      `${panel} find a difference of ${points(difference)} ${percent(power)} of the time, and larger ones more often.`,
    ];
  }
  return asked === "power"
    ? [`${panel} find a difference of ${points(difference)} ${percent(power)} of the time.`]
    : [
        `For a difference of ${points(difference)}: ${panel}. They find it ${percent(power)} of the time.`,
        "No larger panel has less power.",
      ];
}

/** Most people that are looked through. */
export const mostPeople = 5000;

function besideLines(answer: ScaleSizeAnswer): string[] {
  const { products, productsPower, halfWidth } = answer;
  const lines: string[] = [];
  if (products > 2 && productsPower !== null) {
    lines.push(
      `That is one pair among ${(products * (products - 1)) / 2}, held to its share of the risk. The test of all products together says that they differ ${percent(productsPower)} of the time, if all others lie half way between.`,
    );
  }
  if (halfWidth !== null) {
    lines.push(
      `A difference is then known to within ${inUnit(answer)(halfWidth)} either way (95\u00a0% interval of one pair).`,
    );
  }
  return lines;
}

const supposed = (answer: ScaleSizeAnswer): string =>
  `All of this supposes that one person's marks scatter by ${inUnit(answer)(answer.deviation)} once person and product are taken out${answer.repeats > 1 ? seenText(answer) : ""}.`;

const seenText = ({ peopleDeviation: seen, steps }: ScaleSizeAnswer): string =>
  seen === null
    ? ", and that people do not differ in how they see the products (--people-deviation says otherwise)"
    : `, of which ${inUnit({ steps })(seen)} are people who see the products differently: further trays do not average those out`;
