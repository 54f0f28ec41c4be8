import type { Plannable } from "../../model/method.ts";
import type { AdviceReason, AdviceWarning, Advised, AlternativeReason, Asked } from "../../model/plan-question.ts";
import { adviceText } from "./advice-record.ts";
import { organizer, plural } from "./organizer.ts";
import { figure, inHundred } from "./organizer-figures.ts";
import { methodNames } from "./organizer-method.ts";

/** Words of the planner's questions, of its advice, and of what a plan costs. */
const { nb } = organizer;

const yesNo = (yes: string) =>
  [
    { value: "yes", label: "Yes", hint: yes },
    { value: "no", label: "No", hint: "" },
  ] as const;

const questions = {
  heading: "Which test answers it?",
  lead: "Answer what you can. The planner proposes a method; you may take another.",
  want: {
    legend: "What do you want to know?",
    options: [
      { value: "any-difference", label: "Is there any difference?", hint: "" },
      { value: "more-of", label: "Which one has more of a property?", hint: "" },
      { value: "liking", label: "Which one is liked better?", hint: "" },
      { value: "how-much", label: "How much of a property is there?", hint: "" },
      { value: "order", label: "In which order do they stand?", hint: "" },
      {
        value: "chewed-mass",
        label: "Does one gain or lose more mass when it is chewed?",
        hint: "weighed before and after, not judged",
      },
    ],
  },
  products: {
    legend: "What is compared?",
    options: [
      { value: "two", label: "Two products", hint: "" },
      { value: "few", label: "Three to six", hint: "" },
      { value: "many", label: "More than six", hint: "" },
    ],
  },
  aim: {
    legend: "What is to be shown?",
    options: [
      { value: "difference", label: "That there is a difference", hint: "" },
      { value: "too-small", label: "That it is too small to matter", hint: "takes more people" },
    ],
  },
  property: {
    legend: "Can you name the property in which they differ?",
    options: yesNo("such as juiciness"),
  },
  expected: {
    legend: "Can you say beforehand which one has more of it?",
    options: yesNo("from how it is made"),
  },
  food: {
    legend: "How does the food sit in the mouth?",
    options: [
      { value: "mild", label: "Mild, soon gone", hint: "" },
      { value: "ordinary", label: "Like most food", hint: "" },
      { value: "tiring", label: "Tiring, or a strong aftertaste", hint: "" },
    ],
  },
  knows: {
    legend: "Does the panel know one of the two well?",
    options: [
      { value: "neither", label: "No", hint: "" },
      { value: "one", label: "Yes, one of them", hint: "" },
      { value: "confused", label: "No, and three samples at once would confuse it", hint: "" },
    ],
  },
} as const;

/** What was answered, without the mark of a question. */
const labelOf = (question: keyof Asked, answer: string | null): string => {
  const options: readonly { value: string; label: string }[] = questions[question].options;
  return options.find(({ value }) => value === answer)?.label ?? "not answered";
};

const answerText = (question: keyof Asked, answer: string | null): string =>
  labelOf(question, answer).replace(/\?$/, "");

/** An answer that is itself a question keeps its mark. */
const answerSentence = (question: keyof Asked, answer: string | null): string =>
  labelOf(question, answer).replace(/[^?]$/, "$&.");

/** A method inside of a sentence: "a tetrad". */
const named = (method: Plannable): string => `\u201c${methodNames[method]}\u201d`;

const why: Record<AdviceReason, string> = {
  "property-known":
    "You can name the property: asking for it takes far fewer people than asking whether anything differs.",
  "looks-differ":
    "They look different and will not be masked: odd one out would be picked by eye. Here one sample at a time is held against the known one. Eyes may know it again all the same, so mask what you can.",
  "tiring-food": "The food tires or lingers: two samples at a time are all that a mouth bears.",
  "three-confuse":
    "Three samples at once would confuse the panel: matching one of two to a reference is the easier task.",
  "one-known": "The panel knows one of the two: it makes a steady reference.",
  "mild-food": "The food is mild, so four samples are no burden, and this test needs the fewest people.",
  "ordinary-food": "Nobody knows what differs, and three samples are no burden.",
  "which-more": "With two products and one property, the shortest question is which has more.",
  liking: "Liking is asked for straight: which one would you rather have?",
  "several-liked": "Several products are quickest put in order, from liked least to liked most.",
  "how-much": "How much is a number: each sample is marked by itself on a line.",
  order: "Several products are quickest put in order of one property.",
  "many-products":
    "More products than a sitting bears: on a line scale each person can rate some of them, shared out evenly.",
  "pair-is-an-order": "Two products have an order as soon as you know which has more.",
  "one-sided": "Only more in the one you named counts, which takes fewer people.",
  "two-sided": "Either may have more, so both directions count.",
  "chewed-mass":
    "What a mouth adds to a portion, or takes from it, is weighed: before chewing, and again once it is spat out. Either product may gain more.",
  likeness: "Likeness is shown by few right answers against a limit you set, and takes more people.",
};

const warnings: Record<AdviceWarning, string> = {
  "not-customers":
    "People of the house and trained panels do not stand in for customers. The report will say \u201cthis panel\u201d. To speak of customers, recruit them.",
  "mask-first":
    "They can be told apart by looking. Mask that first, with light, lids or colored cups, or eyes decide and not mouths.",
  "no-likeness":
    "This method cannot show that a difference is too small to matter. For that, compare two products by odd one out, or by one property.",
  "likeness-not-by-pairs":
    "A preference cannot show that nobody minds: an even split may also be strong likings that cancel out.",
  "likeness-needs-a-side":
    "To show that a difference is too small, say which product could have more; it is then looked at one way.",
  "two-at-a-time":
    "This method compares two products. Take the two that your decision hangs on, or make a study of each pair.",
  "gain-alone":
    "A larger gain alone proves nothing about juiciness: dry food draws saliva, and juice that is swallowed makes the gain smaller. Ask the panel as well, or plan an inert control portion.",
  "up-to-four": "This method compares two to four products. Take those that your decision hangs on.",
  "too-many-for-a-sitting": "Each person gets some of the products. Say in part 4 how many a tray holds.",
};

const alternativeWhy: Record<AlternativeReason, string> = {
  "fewer-people": "fewer people",
  "fewer-cups": "three cups, not four",
  "easier-task": "an easier task, more people",
  "if-property": "if you can name the property after all",
  "that-property-alone": "if only the property you named counts",
  "how-much-too": "says how much as well",
  quicker: "quicker, and no distances",
  "other-properties": "notices what you did not think of",
};

const grams = (weight: number): string =>
  weight >= 1000 ? `${figure(Math.round(weight / 100) / 10)}${nb}kg` : `${weight}${nb}g`;

export const adviceWords = {
  questions,
  proposal: "The planner proposes",
  partTwo: "Part 2 says why, and what it costs.",
  none: "Answer the plain questions in part 1, and the planner proposes a method here. Or choose one yourself.",
  otherMethods: "Choose another method",
  proposed: (advised: Advised) => adviceText(methodNames, advised),
  openAnswers: (count: number) =>
    `${plural(count, "question is", "questions are")} open; the answer may change the advice.`,
  why,
  warnings,
  alternative: (method: Plannable, reason: AlternativeReason) => `${methodNames[method]} (${alternativeWhy[reason]})`,
  alternatives: (list: readonly string[]) => `Or: ${list.join("; ")}.`,
  follows: "The plan goes by this.",
  differs: (method: Plannable) =>
    `The plan has ${named(method)}. That is yours to choose; plan, lock page and report name both.`,
  otherGoal: "The plan is set up otherwise. That is yours to choose; plan, lock page and report name both.",
  take: (method: Plannable) => `Take ${named(method)}`,
  mark: "proposed",
  askedTerm: "What the planner asked",
  /** An answer with its question. */
  answered: (question: keyof Asked, answer: string | null) =>
    `${questions[question].legend} ${answerSentence(question, answer)}`,
  recordTerm: "Advice",
  /** A short name of each question, where two versions of a plan are compared. */
  short: {
    want: "what is to be found out",
    products: "how many are compared",
    aim: "what is to be shown",
    property: "is the property known",
    expected: "is it known which has more",
    food: "how the food sits",
    knows: "does the panel know one",
  } satisfies Record<keyof Asked, string>,
  answerText,
  cost: {
    heading: "What it costs",
    caption: (effect: string | null) =>
      effect === null
        ? "People, trays and food of each way"
        : `What each way takes to find ${effect} in 80 of 100 studies`,
    captionLikeness: (effect: string) =>
      `What each way takes to show less than ${effect} in 80 of 100 studies, if nobody can tell`,
    distance: (value: number) => `a distance d\u2032 of ${figure(value)}`,
    points: (points: number) => `a difference of ${figure(points)} points`,
    split: (split: string) => `a split of ${split}`,
    thatMuch: "what is sought",
    seats: "Seats at once",
    minutes: (minutes: number, sittings: number) =>
      sittings === 1 ? String(minutes) : `${sittings} \u00d7 ${minutes}`,
    columns: {
      way: "method",
      people: "people",
      trays: "trays",
      cups: "cups",
      food: "food",
      minutes: "minutes each",
      waves: "waves",
    },
    now: (method: Plannable) => `${methodNames[method]}, as planned`,
    nowChance: (chance: number) => `finds it in ${inHundred(chance)}`,
    enough: (method: Plannable) => `${methodNames[method]}, with enough people`,
    other: ({ method, sides }: Advised) => adviceText(methodNames, { method, sides, goal: "difference" }),
    noNumber: "as many as planned",
    tooMany: "over 5,000",
    counting: "\u2026",
    none: "\u2013",
    food: grams,
    /** held: are the methods held to one distance, or is there no such number? */
    note: (warmUp: boolean, held: boolean) =>
      [
        `Spares${warmUp ? " and warm-ups" : ""} are in.`,
        held ? "The methods are held to one distance, since a share who can tell means another thing for each." : "",
      ]
        .join(" ")
        .trim(),
  },
};
