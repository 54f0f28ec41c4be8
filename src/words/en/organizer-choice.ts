import type { Plannable } from "../../model/method.ts";
import type { Plan } from "../../model/plan.ts";
import { listed, organizer, plural } from "./organizer.ts";
import { figure, inHundred, oneDecimal, percent } from "./organizer-figures.ts";
import { dPrimeSizes, dPrimeWord } from "./phrases.ts";

/** Words of the plan for choice methods: what is asked, which product plays which part, what is sought, when to stop. */
const { nb } = organizer;

/** Methods by what a kitchen wants to know. */
export const methodGroups: { legend: string; methods: readonly Plannable[] }[] = [
  { legend: "Is there a difference?", methods: ["triangle", "duo-trio", "tetrad", "same-different", "a-not-a"] },
  { legend: "Which one has more of a property?", methods: ["paired-difference", "three-alternative"] },
  { legend: "Which one is liked better?", methods: ["paired-preference"] },
  { legend: "How much of a property, or in which order?", methods: ["line-scale", "ranking"] },
  { legend: "What do masses of chewed portions say?", methods: ["chew-and-weigh"] },
];

/** "d′ 1.2, moderate" */
const distanceText = (dPrime: number): string => `d\u2032${nb}${figure(dPrime)}, ${dPrimeWord(Number(figure(dPrime)))}`;

export const choiceWords = {
  otherMethods: "Other",
  properties: "What is asked",
  propertiesHint: "The first property is the question. Further ones are asked of the same tray, after it.",
  property: (at: number) => (at === 0 ? "The question" : `Property ${at + 1}`),
  name: "Name for the report",
  nameHint: "\u201cJuiciness\u201d",
  comparative: "Word of the question, in comparison",
  comparativeHint: "\u201cjuicier\u201d, as in \u201cWhich sample is juicier?\u201d",
  definition: "What it means here, for the panelist",
  family: "It counts like the first",
  familyHint:
    "The risk of a false yes is then shared among all that count. One that does not count is only looked at and proves nothing.",
  add: "Add a property",
  remove: (name: string) => `Remove ${name || "this property"}`,
  removed: (name: string) => `Removed ${name ? `\u201c${name}\u201d` : "a property"}.`,

  sides: "Which result counts?",
  sidesHint: "Fixed at lock.",
  sidesOptions: [
    {
      value: "one",
      label: "Only more in the product that is expected to have it",
      hint: "one-sided: it takes fewer people",
    },
    { value: "two", label: "More in either product", hint: "two-sided: when nobody can say beforehand" },
  ] as const,

  roles: {
    needsProducts: "Name the products first.",
    unnamed: (at: number) => `Product ${String.fromCodePoint(65 + at)}, not named yet`,
    expected: (word: string) =>
      word === "" ? "Which product is expected to have more of it?" : `Which product is expected to be ${word}?`,
    expectedHint: "Fixed at lock. No tablet and no panelist is told.",
    reference: "Which product is in the cup marked R?",
    referenceKinds: [
      { value: "balanced", label: "Each one on half of the trays", hint: "when the panel knows neither well" },
      { value: "constant", label: "The same one on every tray", hint: "when the panel knows it well" },
    ] as const,
    constant: "The product that is always the reference",
    known: "Which product is A, in the cup that is tasted first?",
    knownHint: "The one that everybody gets to know before. It becomes the first product of the plan.",
  },

  units: [
    { value: "share", label: "A share of people who can tell", hint: "" },
    { value: "distance", label: "A distance d\u2032", hint: "the same for every method" },
  ] as const,
  unit: "What is sought is named as",
  limitUnit: "The limit is named as",
  limitDistance: "Limit: the distance is less than this d\u2032",
  distance: "Distance d\u2032 to be found",
  distanceSlider: "Distance, by slider",
  distanceHint: `Rule of thumb: ${dPrimeSizes.map(({ from, word }) => `from ${from} ${word}`).join(", ")}.`,
  sameAs: (share: number) => `By this method that is ${percent(Math.round(share * 1000) / 1000)} who can tell.`,
  distanceIs: (dPrime: number) => `By this method that is a distance of ${distanceText(dPrime)}.`,

  first: (first: number, stable: number) =>
    first === stable
      ? `${first}${nb}people are the first number that reaches 80 of 100, and every larger one does.`
      : `${first}${nb}people are the first number that reaches 80 of 100 (the rule of the standards); from ${stable} on every number does.`,
  canFind: (people: number, effect: string) =>
    `The smallest that ${plural(people, "person finds", "people find")} in 80 of 100 studies: ${effect}.`,
  onlyDistance: distanceText,
  shareAndDistance: (share: number, dPrime: number | null) =>
    `${percent(Math.round(share * 1000) / 1000)} who can tell${dPrime === null ? "" : ` (${distanceText(dPrime)})`}`,

  repeats: "Trays a person",
  repeatsHint: "1 is usual. More answers of one person are no further people.",
  repeatsIn: "When does a person have them?",
  repeatsInOptions: [
    { value: "one-sitting", label: "All in one sitting", hint: "" },
    { value: "sessions", label: "One in each session", hint: "part 5 names the session of each wave" },
  ] as const,
  repeatsPooled: (people: number, repeats: number) =>
    `The figures count all ${people * repeats} answers. They hold if people tell alike; where people differ in it, people are the unit and the figures are too hopeful. The report shows how much they differ.`,
  repeatsByPerson: (people: number) =>
    `People are the unit here: the figures are those of ${plural(people, "person", "people")} with one answer each, and further answers are no further people.`,
  repeatsOfMarks:
    "1 is usual. Every tray has all products under new codes. Further trays make a person\u2019s marks steadier; they are no further people.",
  repeatsAveraged: (people: number) =>
    `A person\u2019s marks of a product are averaged over the trays before products are compared. The test counts ${plural(people, "person", "people")}, not marks.`,
  sitting: (samples: number) =>
    `${samples} samples in one sitting. About six samples of a savory food are as many as a person can judge: spread the trays over sessions, or take fewer.`,
  session: "Session or site",

  more: "Intervals and stopping, in detail",
  confidence: "Level of the intervals",
  confidenceHint: "Of the shares and distances beside the test. It changes no verdict.",
  confidences: [
    { value: 0.9, label: `90${nb}%`, hint: "" },
    { value: 0.95, label: `95${nb}%`, hint: "usual" },
    { value: 0.99, label: `99${nb}%`, hint: "" },
  ],
  otherConfidence: (level: number) => percent(level),
  stopping: "When does the study stop?",
  stoppingHint:
    "Fixed at lock. At a look the lead opens the key in memory and is told to go on or to stop, no more. Tablets are told nothing.",
  stoppingOptions: [
    { value: "fixed", label: "When everybody has answered", hint: "usual" },
    {
      value: "looks",
      label: "Also after set numbers of answers, if the result is clear",
      hint: "the risks add up to no more than alpha",
    },
    { value: "sequential", label: "As soon as a yes or a no is clear", hint: "Wald\u2019s lines, ISO\u00a016820" },
  ] as const,
  lookAt: "Look after so many answers",
  lookAtHint: "Up to five whole numbers below the people planned, like 12, 24.",
  missBeta: "How often may chance hide what is sought? (beta)",
  noPreview: "What this rule asks shows once its numbers fit the people and the difference of the plan.",
  asks: ({ judgments, upper, lower }: { judgments: number; upper: number | null; lower: number | null }) => {
    const yes = upper === null ? "no count is a yes" : `yes from ${upper}${nb}right on`;
    return `After ${judgments}${nb}answers: ${yes}${lower === null ? "" : `, no up to ${lower}${nb}right`}.`;
  },
  total: (alpha: number, power: number) =>
    `Fooled by chance, all looks together: ${oneDecimal(alpha * 100)} in 100. What is sought is found in ${inHundred(power)} such studies.`,
  expects: (guessing: number, sought: number) =>
    `Answers until it stops, on average: ${oneDecimal(guessing)} if nobody can tell, ${oneDecimal(sought)} if what is sought is true.`,

  norm: "Held against an earlier study of two alike samples",
  normHint:
    "How many had no preference when both samples were the same? The report tests whether fewer have none here.",
  normAdd: "Hold \u201cno preference\u201d against an earlier study of two alike samples",
  normTitle: "Title of that study",
  normNone: "Had no preference there",
  normOf: "Answered there",
  normRemove: "Leave this out",

  locked: {
    property: (name: string, definition: string, expected: string | null, counts: boolean) =>
      [
        `${name.trim()}: ${definition.trim().replace(/\.$/, "")}.`,
        expected === null ? "Either product may have more." : `Expected to have more: \u201c${expected}\u201d.`,
        counts ? "" : "Only looked at.",
      ]
        .filter(Boolean)
        .join(" "),
    reference: "Cup without a code",
    referenceOf: (mark: string, always: string | null) =>
      always === null
        ? `Marked ${mark}, tasted first: each product on half of the trays.`
        : `Marked ${mark}, tasted first: always \u201c${always}\u201d.`,
    repeatsOf: (repeats: number, where: Plan["repeatsIn"]) =>
      where === "sessions" ? `${repeats}, one in each session.` : `${repeats}, all in one sitting.`,
    stoppingOf: (rule: Exclude<Plan["stopping"], { rule: "fixed" }>) =>
      rule.rule === "looks"
        ? `Looks after ${listed(rule.at.map(String))} answers, and at the end.`
        : `By Wald\u2019s lines, after any answer; a difference is missed at most ${percent(rule.beta)} of the time.`,
    normOf: ({ title, none, of }: NonNullable<Plan["blankNorm"]>) =>
      `\u201c${title.trim()}\u201d: ${none} of ${of} had no preference.`,
  },
};
