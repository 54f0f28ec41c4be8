import type { EffectUnit, WorldPlayed } from "../../model/rehearsal.ts";
import { finePercent, percent, shortNumber, wholeNumber } from "../number.ts";
import { organizer, plural } from "./organizer.ts";
import { splitText } from "./organizer-people.ts";

/** Words of the rehearsal: a plan that invented people taste. */
const { nb } = organizer;

type Goal = "difference" | "similarity";

const studies = (count: number): string => `${wholeNumber(count)}${nb}studies`;

/** What is true in an invented world, as the first half of a sentence. */
function truth(unit: EffectUnit, effect: number): string {
  switch (unit) {
    case "share":
      return effect === 0 ? "Nobody can tell" : `${percent(effect)} of people can tell`;
    case "lead":
      return effect === 0 ? "Nobody leans to either product" : `Those who choose are split ${splitText(effect)}`;
    case "d-prime":
      return effect === 0 ? "Nothing differs" : `The products lie d\u2032 = ${shortNumber(effect, 2)} apart`;
    case "points":
      return effect === 0 ? "Nothing differs" : `The products lie ${shortNumber(effect)}${nb}points apart`;
  }
}

/** How invented people answer, by what the effect is counted in. */
const invented: Record<EffectUnit, string> = {
  share: "who can tell is right, and everybody else guesses",
  lead: "each of those who choose takes the first product with the chance supposed",
  "d-prime": "each perceives every sample with some noise, and distances are in units of that noise",
  points:
    "the first and the last product lie as far apart as supposed, the others half way; marks scatter as supposed, and people differ as much in where they mark",
};

export const rehearsalWords = {
  heading: (title: string) => `Rehearsal: ${title}`,
  windowTitle: "Rehearsal",
  link: "Play it with invented people",
  linkHint: "How often would this study find what is there, and how often see what is not?",
  back: "Back to the plan",
  lead: "Invented people taste this plan, many times over. You see how often such a study finds what is there, and how often it sees what is not. Nothing of it is kept or sent, and no answer of it can get among real ones.",
  filled:
    "What the plan does not say yet is filled in for the rehearsal: products by their letters, one wave for everybody.",

  effect: {
    share: "Suppose this share of people can really tell",
    lead: "Suppose so many of 100 who choose take the first product",
    "d-prime": "Suppose this distance between the products (d\u2032)",
    points: "Suppose this difference between the first and the last product",
  } satisfies Record<EffectUnit, string>,
  effectSlider: "The same, by slider",
  apart: "Suppose this share can tell, though the products are to pass as alike",
  /** Points are hundredths of the whole scale, also where it has steps. */
  inSteps: (steps: number) =>
    `Points go from 0 at one end of the scale to 100 at the other; of your ${steps} steps one is ${shortNumber(100 / (steps - 1), 1)}${nb}points.`,
  deviation: "Scatter of one mark (standard deviation)",
  units: { share: "%", lead: "of 100", "d-prime": "", points: "points" } satisfies Record<EffectUnit, string>,
  plays: "How many studies of each kind",
  playsOptions: [
    { value: 200, label: "200", hint: "" },
    { value: 1000, label: wholeNumber(1000), hint: "" },
    { value: 5000, label: wholeNumber(5000), hint: "" },
  ],
  seed: "Start of the luck",
  seedHint: "The same start gives the same studies again. Any word or number will do.",
  play: "Play",
  again: "Play again",
  stop: "Stop playing",
  playing: "Studies being played",
  progress: (done: number, all: number) => `${wholeNumber(done)} of ${wholeNumber(all)} played`,
  stopped: "Stopped. Nothing was kept.",
  failed: "The rehearsal broke off.",

  results: "What came of it",
  truth: (unit: EffectUnit, { effect }: WorldPlayed) => `${truth(unit, effect)}.`,
  rightly: (goal: Goal, { yes, plays }: WorldPlayed) =>
    goal === "difference"
      ? `${wholeNumber(yes)} of ${studies(plays)} found a difference.`
      : `${wholeNumber(yes)} of ${studies(plays)} showed that the products are alike within the limit.`,
  wrongly: (goal: Goal, { yes, plays }: WorldPlayed) =>
    goal === "difference"
      ? `${wholeNumber(yes)} of ${studies(plays)} cried wolf: they found a difference that is not there.`
      : `${wholeNumber(yes)} of ${studies(plays)} called them alike all the same.`,
  share: ({ share: { estimate, low, high } }: WorldPlayed) =>
    `That is ${finePercent(estimate ?? 0)}; so many plays pin it down to ${finePercent(low ?? 0)} to ${finePercent(high ?? 1)} (95${nb}% interval).`,
  expected: ({ expected }: WorldPlayed) =>
    expected === null
      ? "No exact number is known for such a plan."
      : `The exact test of the plan gives ${finePercent(expected)}.`,
  line: "Invented marks stay within the ends of the line.",
  repeats:
    "Who can tell does so on each of their trays. That is why several trays of few people find less than as many trays of many people.",
  picture: (rightly: number, wrongly: number) =>
    `Of 100 such studies, dark squares say yes: ${rightly} where it is right, ${wrongly} where it is wrong.`,
  rightRow: "a yes is right",
  wrongRow: "a yes is wrong",
  examples: "Three of these studies, as their reports would begin",
  examplesLead: "Same kitchen, same truth, same plan. Only luck differs.",
  example: (number: number, people: number) => `Study ${number}, ${plural(people, "answer", "answers")}`,
  invented: "Invented. Nobody tasted anything.",
  notes: (unit: EffectUnit) => [
    `People are invented by the model behind the plan\u2019s own numbers: ${invented[unit]}.`,
    "A rehearsal finds faults of the plan: too few people, a rule that cries wolf. It knows nothing of faults of the kitchen. For these, run a blank study.",
  ],
} as const;
