import type { mouths } from "../../model/chew.ts";
import type { Plan } from "../../model/plan.ts";
import { plural } from "./organizer.ts";
import { oneDecimal } from "./organizer-figures.ts";

type Chew = Plan["chew"];
type Mouth = (typeof mouths)[number];
type Flag =
  | { what: "coarse-balance" | "second"; points: number; matters: number }
  | { what: "many-portions"; portions: number; most: number };

const mouth: Record<Mouth, { label: string; hint: string }> = {
  "rinsed-and-waited": { label: "Rinsed with water, then left for a while", hint: "usual" },
  rinsed: { label: "Rinsed with water", hint: "what the rinse leaves is weighed too" },
  dried: { label: "Dried with a paper cloth", hint: "" },
};

/** Words of the plan for portions that are chewed and weighed. */
export const chewWords = {
  heading: "How portions are chewed and weighed",
  seconds: "Chewing, in seconds",
  secondsHint: "The tablet says \u201cNow\u201d after it. Real seconds are kept, whatever they are.",
  unitSeconds: "s",
  unitGrams: "g",
  unitPoints: "points",
  mouth: "The mouth before each portion",
  mouthHint: "Fixed at lock, the same for every portion.",
  mouths: (Object.keys(mouth) as Mouth[]).map((value) => ({ value, ...mouth[value] })),
  wait: "Wait after the rinse",
  rinse: "Water rinsed into the same cup",
  rinseHint: "Weighed out beforehand and taken off again. Leave it empty for no rinse.",
  tolerance: "A portion may be off by",
  step: "Step of the balance",
  stepHint: "The smallest step it shows, as written on it, such as 0.01.",
  stepWrong: "This is no mass in grams like 0.01.",
  within: "A closed cup is weighed within",
  matters: "Difference that matters",
  mattersHint: "Of two gains, in percentage points. Empty: none was named.",
  control: "Is one product an inert control?",
  controlHint:
    "Something that gives and takes no juice shows saliva alone. It is served under a code like all others and is not among those compared.",
  noControl: "None of them",
  unnamed: (at: number) => `Product ${String.fromCodePoint(65 + at)}, not named yet`,
  spits: "Every portion is spat into its own lidded cup: it is weighed again. Nothing is tasted twice.",

  flag: (flag: Flag): string => {
    switch (flag.what) {
      case "coarse-balance":
        return `Two steps of this balance are ${oneDecimal(flag.points)} points of a portion, more than a quarter of the ${oneDecimal(flag.matters)} points that matter. Take a finer balance or a larger portion.`;
      case "second":
        return `One second of sloppiness is about ${oneDecimal(flag.points)} points, if a gain of 25\u00a0% rises evenly with chewing; ${oneDecimal(flag.matters)} points matter. Real seconds are kept: practice the two touches beforehand.`;
      case "many-portions":
        return `${flag.portions} portions in one sitting. More than ${flag.most} tire jaw and mouth: spread the trays over sessions, or take fewer.`;
    }
  },
  throughput: (
    { atOnce, apart, minutes }: { atOnce: number; apart: number; minutes: number },
    people: number,
  ): string =>
    [
      `One balance, at 20 seconds a cup: ${plural(atOnce, "person", "people")} may begin at once and have each cup weighed in time.`,
      apart > 0 ? `The next begin ${apart} seconds later.` : "",
      `A wave of ${plural(people, "person", "people")} takes about ${minutes} minutes. Cups wait closed.`,
    ]
      .filter(Boolean)
      .join(" "),

  /** Of the locked plan; `control`: its name, empty where there is none. */
  locked: (chew: Chew, control: string): string[] => [
    `${chew.seconds}\u00a0s of chewing, then everything into the cup; weighed closed within ${chew.weighWithinSeconds}\u00a0s.`,
    `${mouth[chew.mouth].label}${chew.mouth === "rinsed-and-waited" ? `: ${chew.waitSeconds}\u00a0s` : ""}. ${
      chew.rinseGrams === null ? "No rinse into the cup." : `Rinsed with ${chew.rinseGrams}\u00a0g into the cup.`
    }`,
    `Portions may be off by ${chew.toleranceGrams}\u00a0g; the balance reads ${chew.balanceStep}\u00a0g.`,
    control === "" ? "No control." : `Inert control: \u201c${control}\u201d.`,
    chew.matters === null
      ? "No difference was named that matters."
      : `What matters: ${chew.matters} percentage points.`,
  ],

  usual:
    "The interval gets narrower with the square root of the people: four times as many halve it. Portions of one person are averaged and are no further people.",
  one: "With one person, portions are the unit: the conclusion is about that person\u2019s mouth and nobody else\u2019s. The person must not know which product a portion is.",
  repeatsHint: "3 is usual. Every tray has each product once, under new codes and in another order.",
};
