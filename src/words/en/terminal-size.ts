import type { Method } from "../../model/method.ts";
import type { Goal, Sides } from "../../model/plan.ts";
import { dPrimeText, percent, shortNumber, wholeNumber } from "../number.ts";

/** What `cloche size` answers: the same for the JSON document and for the text. Numbers with full precision. */
export type SizeAnswer = {
  method: Method;
  goal: Goal;
  sides: Sides;
  /** Trays a person. */
  repeats: number;
  alpha: number;
  beta: number;
  /** Similarity goal: the limit, in both measures; no finite distance gives a share of all. */
  limit: { discriminatorShare: number; dPrime: number | null } | null;
  /** How the answer was found. */
  rule: "first-n-exact-binomial" | "first-n-exact-fisher";
  /** What was asked for: people for an effect, the effect that people find, or how often they find it. */
  asked: "people" | "effect" | "power";
  /** Difference goal: what is found, as a share who tell, as the lead of one side of a pair, and as a distance. */
  effect: { discriminatorShare: number | null; lead: number | null; dPrime: number | null } | null;
  /** First number of people with the power asked for, and from which on it stays so; null where it takes too many. */
  people: number | null;
  peopleStable: number | null;
  /** The count that decides for `people`; null where none would do. */
  criticalNumber: number | null;
  power: number | null;
};

/** Most people that are looked through. */
const mostPeople = 5000;

/** The answer in plain words, a sentence a line. */
export function sizeText(answer: SizeAnswer): string {
  const lines = { people: peopleLines, effect: effectLines, power: powerLines }[answer.asked](answer);
  return [headLine(answer), ...lines, ...whatCounts(answer)].join("\n");
}

const headLine = ({ method, goal, sides, alpha, beta }: SizeAnswer): string =>
  goal === "similarity"
    ? `${method}, to show likeness: risk of calling more than the limit alike ${risk(beta)}, of missing likeness ${risk(alpha)}.`
    : `${method}, to show a difference, ${sides === "one" ? "one-sided" : "two-sided"}: risk of a false alarm ${risk(alpha)}, of missing it ${risk(beta)}.`;

const risk = (share: number): string => `${shortNumber(share * 100, 6)}\u00a0%`;

function peopleLines(answer: SizeAnswer): string[] {
  const { people, peopleStable, power, goal } = answer;
  const what = whatOf(answer);
  if (people === null || peopleStable === null || power === null) {
    return [`More than ${wholeNumber(mostPeople)} people would be needed for ${what}.`];
  }
  const verb = goal === "similarity" ? "show likeness" : "find it";
  return [
    `For ${what}: ${wholeNumber(people)} people${eachTimes(answer)}. They ${verb} ${percent(power)} of the time.`,
    peopleStable > people
      ? `Counts are whole, so a somewhat larger panel can do worse: from ${wholeNumber(peopleStable)} people on none does.`
      : "No larger panel has less power than was asked for.",
  ];
}

function effectLines(answer: SizeAnswer): string[] {
  const { people, effect, criticalNumber, beta } = answer;
  const panel = `${wholeNumber(people ?? 0)} people${eachTimes(answer)}`;
  if (criticalNumber === null)
    return [`${panel} can find nothing: not even the clearest answers would reach the risk.`];
  if (effect === null) {
    return [`${panel} do not find even the largest difference ${percent(1 - beta)} of the time.`];
  }
  return [`${panel} find ${whatOf(answer)} ${percent(1 - beta)} of the time, and larger ones more often.`];
}

function powerLines(answer: SizeAnswer): string[] {
  const { people, power, criticalNumber, goal } = answer;
  const panel = `${wholeNumber(people ?? 0)} people${eachTimes(answer)}`;
  if (criticalNumber === null || power === null) return [`${panel} are too few: no count would do.`];
  return goal === "similarity"
    ? [`${panel} show likeness within ${whatOf(answer)} ${percent(power)} of the time, if nobody can tell.`]
    : [`${panel} find ${whatOf(answer)} ${percent(power)} of the time.`];
}

const eachTimes = ({ repeats }: SizeAnswer): string => (repeats > 1 ? ` with ${repeats} trays each` : "");

/** "25 % who can tell (d′ 1.89)", "a split of 65 to 35", "d′ 1.50". */
function whatOf({ limit, effect }: SizeAnswer): string {
  if (limit) return `a limit of ${tellers(limit.discriminatorShare, limit.dPrime)}`;
  if (!effect) return "this difference";
  const { discriminatorShare, lead, dPrime } = effect;
  if (discriminatorShare !== null) return tellers(discriminatorShare, dPrime);
  const distance = dPrime === null ? "" : `d\u2032\u00a0${dPrimeText(dPrime)}`;
  if (lead === null) return distance;
  const first = (100 * (1 + lead)) / 2;
  return `a split of ${shortNumber(first)} to ${shortNumber(100 - first)}`;
}

const tellers = (share: number, dPrime: number | null): string =>
  `${shortNumber(share * 100)}\u00a0% who can tell${dPrime === null ? "" : ` (d\u2032\u00a0${dPrimeText(dPrime)})`}`;

/** Which count decides, and of what the answer holds. */
function whatCounts({ people, criticalNumber, method, goal, sides, repeats, rule }: SizeAnswer): string[] {
  if (people === null || criticalNumber === null) return [];
  const of = wholeNumber(people * repeats);
  const needed = wholeNumber(criticalNumber);
  const lines =
    rule === "first-n-exact-fisher"
      ? [
          `Half of the trays are of each kind. Where half of all answers are “${method === "a-not-a" ? "not A" : "different"}”, ${needed} of them must come from the unlike kind.`,
          "This holds for people who lean to neither answer.",
        ]
      : goal === "similarity"
        ? [`At most ${needed} of ${of} may be right.`]
        : [
            sides === "two"
              ? `At least ${needed} of ${of} must be on one side.`
              : `At least ${needed} of ${of} must be right.`,
          ];
  return repeats > 1
    ? [...lines, "This holds if all people can tell equally well; the more they differ, the less it does."]
    : lines;
}
