import { type Plannable, plannable } from "../../model/method.ts";
import type { Goal, NoPreference, PanelType } from "../../model/plan.ts";
import { organizer } from "./organizer.ts";
import { percent, risk } from "./organizer-figures.ts";

/** Words of the plan's method part: what each method asks, what its answer allows to say, and the risks of being wrong. */
const { nb } = organizer;

const alphaOptions = [
  { value: 0.05, label: `5${nb}%: one study in twenty`, hint: "usual" },
  { value: 0.01, label: `1${nb}%: one study in a hundred`, hint: "when a false yes is costly" },
  { value: 0.1, label: `10${nb}%: one study in ten`, hint: "when a missed difference is costly" },
];

export const methodNames: Record<Plannable, string> = {
  triangle: "Triangle",
  "duo-trio": "Duo-trio",
  "paired-difference": "Paired difference",
  "three-alternative": "Three-alternative choice",
  tetrad: "Tetrad",
  "same-different": "Same or different",
  "a-not-a": "A or not A",
  "paired-preference": "Paired preference",
  "line-scale": "Rating scale",
  ranking: "Ranking",
  "chew-and-weigh": "Chew and weigh",
};
const names = methodNames;

/** One sentence each: what a yes will and will not allow to say. */
const hints: Record<Plannable, string> = {
  triangle: "A yes says that people like these notice a difference, not what differs or which is better.",
  "duo-trio":
    "Next to one that is known. A yes says that people notice a difference, not what differs. An easier task than the triangle, and it takes more people.",
  "paired-difference":
    "A yes says which one has more of a named property, and nothing of other properties or of liking.",
  "three-alternative":
    "Is the one that is expected to have more of a property picked out of three? A yes says so of that property alone. Takes the fewest people.",
  tetrad:
    "For mild food. A yes says that people notice a difference, not what differs. Four samples at once tire more than three.",
  "same-different":
    "One pair at a time, for food that tires. A yes says that two products are called different more often than one and the same.",
  "a-not-a":
    "Is it told from the one that everybody knows? A yes says that the new one is taken for the known one less often, not what differs.",
  "paired-preference":
    "A yes says that more people choose the one, not why, nor that they can tell the two apart for sure.",
  "line-scale":
    "How much of a property, or how well liked, on a line or in labeled steps. A yes says how far apart products are in that, and nothing of what was not asked.",
  ranking: "Several samples put in order of one property. A yes says which stand higher, not by how much.",
  "chew-and-weigh":
    "What masses of chewed portions say. A yes says that portions of one product gain more in the mouth: saliva taken up less juice and bits lost. It does not measure juiciness, and dry food pulls in more saliva.",
};
const options = plannable.map((value) => ({ value, label: names[value], hint: hints[value] }));

/** How it goes on the tray. */
const is: Record<Plannable, string> = {
  triangle:
    "Three coded samples, two alike and one different. The panelist picks the different one; a guess is right one time in three.",
  "duo-trio":
    "A reference, marked R, and two coded samples, one of them the same as the reference. The panelist picks that one; a guess is right one time in two.",
  "paired-difference":
    "Two coded samples, half of the trays in one order and half in the other. The panelist picks the one with more of the property.",
  "three-alternative":
    "Three coded samples, one of the product that is expected to have more of the property and two of the other. The panelist picks one; a guess is right one time in three.",
  tetrad:
    "Four coded samples, two of each product. The panelist puts together the two that are alike; a guess is right one time in three.",
  "same-different":
    "Two coded samples: on half of the trays the same product twice, on the other half both. The panelist says whether they are the same.",
  "a-not-a":
    "A cup marked A, tasted first, and one coded sample: on half of the trays A again, on the other half the other product. The panelist says whether it is A.",
  "paired-preference":
    "Two coded samples, half of the trays in one order and half in the other. Nobody is right or wrong.",
  "line-scale":
    "Every product once on each tray, under a code. The panelist rates each property of each sample: on a bare line between two end words, or in labeled steps.",
  ranking:
    "Every product once on each tray, under a code. The panelist touches them in order, from least to most of one property; no place is shared.",
  "chew-and-weigh":
    "Every product once on each tray, each portion weighed in a lidded cup under a code. The panelist chews it for a fixed time and spits everything back into its cup, which is weighed again.",
};

type Says = { yes: string; no: string };
const likeness: Says = {
  yes: "You may say that fewer people than the limit notice a difference. It does not say that nobody does.",
  no: "A no does not let you say that they differ: the panel may have been too small to show likeness.",
};
const noDifference = "A no does not let you say that they are the same: the panel may have been too small.";
const noticed: Record<Goal, Says> = {
  difference: { yes: "You may say that people like these notice a difference.", no: noDifference },
  similarity: likeness,
};
const directed: Record<Goal, Says> = {
  difference: {
    yes: "You may say which one has more of this property to people like these. It says nothing of other properties.",
    no: noDifference,
  },
  similarity: likeness,
};
const none: Says = { yes: "", no: "" };
const says: Record<Plannable, Record<Goal, Says>> = {
  triangle: noticed,
  "duo-trio": noticed,
  "paired-difference": directed,
  "three-alternative": directed,
  tetrad: noticed,
  "same-different": { difference: noticed.difference, similarity: none },
  "a-not-a": {
    difference: { yes: "You may say that people like these tell the other one from A.", no: noDifference },
    similarity: none,
  },
  "paired-preference": {
    difference: {
      yes: "You may say which one more of these people prefer, and by how much.",
      no: "A no does not let you say that both are liked alike: the panel may have been too small, or split in two.",
    },
    similarity: none,
  },
  "line-scale": {
    difference: {
      yes: "You may say how far apart the products are on each property, and how sure that is.",
      no: "A no does not let you say that they are the same: the interval says how large a difference may still be.",
    },
    similarity: none,
  },
  ranking: {
    difference: {
      yes: "You may say which products have more of the property than others to people like these, not how much more.",
      no: noDifference,
    },
    similarity: none,
  },
  "chew-and-weigh": {
    difference: {
      yes: "You may say by how many percentage points of their mass portions of one product gained more than those of another, in these mouths. You may not say that one is juicier.",
      no: "A no does not let you say that they gain the same: the interval says how large a difference may still be.",
    },
    similarity: none,
  },
};

const noPreference: Record<NoPreference, { label: string; hint: string; short: string }> = {
  "not-offered": {
    label: "Not offered",
    hint: "Everybody chooses one of the two.",
    short: "\u201cno preference\u201d not offered",
  },
  dropped: {
    label: "Offered, and left out of the test",
    hint: "Only those who choose are compared, so fewer count.",
    short: "\u201cno preference\u201d left out of the test",
  },
  split: {
    label: "Offered, and split evenly",
    hint: "Half of them count for each side. That pulls toward a tie: a lead is harder to find.",
    short: "\u201cno preference\u201d split evenly",
  },
  "three-way": {
    label: "Offered, and shown as a third share",
    hint: "Three shares of everybody asked. The test compares the two among those who choose.",
    short: "\u201cno preference\u201d a third share",
  },
};

const panelTypes: Record<PanelType, { label: string; hint: string; short: string }> = {
  colleagues: { label: "People of the house", hint: "staff, not trained", short: "people of the house" },
  trained: { label: "Trained assessors", hint: "they describe and measure", short: "trained assessors" },
  consumers: { label: "Recruited consumers", hint: "people who buy or eat it", short: "recruited consumers" },
};

const seen = "The risk of seeing a difference that is not there, called alpha. It is fixed at lock.";

export const method = {
  choose: "Method",
  names,
  options,
  is,
  says,
  /** Changing it is no loss. */
  keeps: "What you typed for another method stays in the plan and comes back with it.",
  howTerm: "How it goes",
  yesTerm: "If yes",
  noTerm: "If no",
  goal: "Goal",
  goals: [
    { value: "difference", label: "To show a difference", hint: "" },
    {
      value: "similarity",
      label: "To show likeness within a limit",
      hint: "that too few people can tell for it to matter",
    },
  ] as const,
  limit: "Limit: fewer than this share can tell",
  limitHint: `Fixed before anybody tastes: which share of people who notice would still be harmless? As a rule of thumb, fewer than 25${nb}% who can tell is a small difference.`,
  beta: "How often may chance call alike what is not?",
  betaHint:
    "The risk of showing likeness although as many people as the limit can tell, called beta. It is fixed at lock.",
  betaOptions: [
    { value: 0.05, label: `5${nb}%: one study in twenty`, hint: "usual" },
    { value: 0.01, label: `1${nb}%: one study in a hundred`, hint: "when a change that is noticed is costly" },
    { value: 0.1, label: `10${nb}%: one study in ten`, hint: "when people are few" },
  ],
  alpha: "How often may chance fool you?",
  alphaHint: {
    triangle: seen,
    "duo-trio": seen,
    "paired-difference": seen,
    "three-alternative": seen,
    tetrad: seen,
    "same-different": seen,
    "a-not-a": seen,
    "paired-preference":
      "The risk of seeing a preference that is not there, in either direction, called alpha. It is fixed at lock.",
    "line-scale":
      "The risk of seeing a difference that is not there, over all pairs of products of one property, called alpha. It is fixed at lock.",
    ranking:
      "The risk of seeing a difference that is not there, over all pairs of products, called alpha. It is fixed at lock.",
    "chew-and-weigh":
      "The risk of seeing a difference of two gains that is not there, in either direction, called alpha. It is fixed at lock.",
  } satisfies Record<Plannable, string>,
  alphaOptions,
  otherAlpha: (share: number) => `${percent(share)}: ${risk(share)}`,
  none: "May people say that they have no preference?",
  noneHint: "The rule is fixed at lock. The report shows all three counts, whatever the rule.",
  noPreference,
  panel: "Who sits on the panel?",
  panelTypes,
  /** Shown where a question of liking is asked of people who stand for nobody but themselves. */
  panelFlag: {
    colleagues:
      "Colleagues often know the kitchen and its hopes. The report says \u201cthis panel\u201d and never \u201ccustomers\u201d.",
    trained:
      "Trained assessors are poor judges of liking: training changes what people like. The report flags it and says \u201cthis panel\u201d.",
    consumers: "",
  } satisfies Record<PanelType, string>,
  preview: "What the panelist reads",
  notes: {
    triangle: [
      "If you know which property differs, a paired difference needs far fewer people, and a rating scale says how much.",
      "The triangle is the wrong test where two portions of one product can often be told apart.",
    ],
    "duo-trio": [
      "Take a constant reference if the panel knows one of the products well, else a balanced one.",
      "The task is easy; the triangle needs fewer people for the same difference.",
    ],
    "paired-difference": [
      "Say before the lock whether one product is expected to have more: then one side is tested, and it takes fewer people.",
      "The word must mean the same to everybody: write down what it means here.",
    ],
    "three-alternative": [
      "The product that is expected to have more has to be named before the lock.",
      "The word must mean the same to everybody: write down what it means here.",
    ],
    tetrad: [
      "Four samples tire and dull the tongue: for mild food only.",
      "It stays ahead of the triangle as long as the fourth sample takes no more than about a third off the difference.",
    ],
    "same-different": [
      "People lean to one of the answers. Half of the trays hold the same product twice, so that this can be told apart from a difference.",
      "Each pair is judged by itself: little carry-over, but more people than other methods need.",
    ],
    "a-not-a": [
      "Let everybody get to know A well before the first tray.",
      "People lean to one of the answers. Half of the trays hold A again, so that this can be told apart from a difference.",
    ],
    "paired-preference": [
      "A preference says nothing of how strong the liking is, and people state one even between two alike.",
      "Ask it of people who eat the food, and never on the same tray after a difference test.",
    ],
    "line-scale": [
      "Judges manage about six samples of a savory food in a sitting.",
      "One property is the question. Every further one raises the chance of a false alarm; the report looks at them beside it.",
    ],
    ranking: [
      "Quick, and no scale to learn. It says who is before whom, not how far: for that take a rating scale.",
      "All samples are on the tray at once. Judges manage about six samples of a savory food in a sitting.",
    ],
    "chew-and-weigh": [
      "No direction is presumed. Dry food pulls in more saliva, and juice that is swallowed is lost: both make the gain of a juicy food smaller. Smell and flavor drive saliva the other way.",
      "People differ more in this figure than food does. So everybody has every product, and people are counted, not portions.",
      "Masses stand beside what people perceive; they do not replace it.",
    ],
  } satisfies Record<Plannable, readonly string[]>,
};
