import { percent, shortNumber, wholeNumber } from "../number.ts";

/** What `cloche size --method line-scale` answers. Points are hundredths of the line; numbers with full precision. */
export type ScaleSizeAnswer = {
  method: "line-scale";
  goal: "difference";
  sides: "two";
  products: number;
  perTray: number;
  repeats: number;
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

const points = (value: number): string => `${shortNumber(value, 3)}\u00a0points`;

const headLine = ({ products, perTray, alpha, beta }: ScaleSizeAnswer): string =>
  `line-scale, ${products} products${perTray < products ? `, ${perTray} on a tray` : ""}, two-sided: risk of a false alarm ${risk(alpha)}, of missing it ${risk(beta)}.`;

const risk = (share: number): string => `${shortNumber(share * 100, 6)}\u00a0%`;

function foundLines({ asked, people, difference, power, repeats, beta }: ScaleSizeAnswer): string[] {
  const panel = `${people === 1 ? "1 person" : `${wholeNumber(people ?? 0)} people`}${repeats > 1 ? ` with ${repeats} trays each` : ""}`;
  if (people === null || power === null || difference === null) {
    return [
      asked === "people"
        ? `More than ${wholeNumber(mostPeople)} people would be needed for ${points(difference ?? 0)}.`
        : `${panel} cannot find even 100\u00a0points ${percent(1 - beta)} of the time.`,
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
const mostPeople = 5000;

function besideLines({ products, productsPower, halfWidth }: ScaleSizeAnswer): string[] {
  const lines: string[] = [];
  if (products > 2 && productsPower !== null) {
    lines.push(
      `That is one pair among ${(products * (products - 1)) / 2}, held to its share of the risk. The test of all products together says that they differ ${percent(productsPower)} of the time, if all others lie half way between.`,
    );
  }
  if (halfWidth !== null) {
    lines.push(
      `A difference is then known to within ${points(halfWidth)} either way (95\u00a0% interval of one pair).`,
    );
  }
  return lines;
}

const supposed = ({ deviation, peopleDeviation, repeats }: ScaleSizeAnswer): string =>
  `All of this supposes that one person's marks scatter by ${points(deviation)} once person and product are taken out${repeats > 1 ? seenText(peopleDeviation) : ""}.`;

const seenText = (seen: number | null): string =>
  seen === null
    ? ", and that people do not differ in how they see the products (--people-deviation says otherwise)"
    : `, of which ${points(seen)} are people who see the products differently: further trays do not average those out`;
