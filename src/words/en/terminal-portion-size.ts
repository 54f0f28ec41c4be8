import { percent, shortNumber, wholeNumber } from "../number.ts";
import { mostPeople, risk } from "./terminal-scale-size.ts";

/** What `cloche size --method chew-and-weigh` answers. Differences and deviations are percentage points of the portion. */
export type PortionSizeAnswer = {
  method: "chew-and-weigh";
  goal: "difference";
  sides: "two";
  /** Compared ones; each but the first with the first, at an even share of alpha. */
  products: number;
  alpha: number;
  beta: number;
  /** Supposed: standard deviation over people of one person's difference. */
  deviation: number;
  rule: "noncentral-t";
  asked: "people" | "effect" | "power";
  difference: number | null;
  people: number | null;
  power: number | null;
  /** Half of the 95 % interval of a difference. */
  halfWidth: number | null;
};

const points = (value: number): string => `${shortNumber(value, 3)}\u00a0percentage points`;

/** The answer in plain words, a sentence a line. */
export function portionSizeText(answer: PortionSizeAnswer): string {
  const { products, alpha, beta, deviation, halfWidth } = answer;
  return [
    `chew-and-weigh, ${products} products, two-sided: risk of a false alarm ${risk(alpha)}, of missing it ${risk(beta)}.`,
    ...foundLines(answer),
    ...(products > 2 ? [`Each product is compared with the first, at its share of the risk.`] : []),
    ...(halfWidth === null
      ? []
      : [`A difference is then known to within ${points(halfWidth)} either way (95\u00a0% interval).`]),
    `All of this supposes that one person's difference, of the means of all portions, scatters by ${points(deviation)} from person to person.`,
  ].join("\n");
}

function foundLines({ asked, people, difference, power, beta }: PortionSizeAnswer): string[] {
  const panel = `${wholeNumber(people ?? 0)} people`;
  if (people === null || power === null || difference === null) {
    return [
      asked === "people"
        ? `More than ${wholeNumber(mostPeople)} people would be needed for ${points(difference ?? 0)}.`
        : `${panel} cannot find even ${points(100)} ${percent(1 - beta)} of the time.`,
    ];
  }
  if (asked === "people") {
    return [
      `For a difference of ${points(difference)}: ${panel}. They find it ${percent(power)} of the time.`,
      "No larger panel has less power.",
    ];
  }
  const more = asked === "effect" ? ", and larger ones more often" : "";
  return [`${panel} find a difference of ${points(difference)} ${percent(power)} of the time${more}.`];
}
