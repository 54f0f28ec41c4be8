import type { Goal, NoPreference, PanelType, Plannable } from "../../model/plan.ts";
import { organizer } from "./organizer.ts";
import { percent, risk } from "./organizer-figures.ts";

/** Words of the plan's method part: what each method asks, what its answer allows to say, and the risks of being wrong. */
const { nb } = organizer;

const alphaOptions = [
  { value: 0.05, label: `5${nb}%: one study in twenty`, hint: "usual" },
  { value: 0.01, label: `1${nb}%: one study in a hundred`, hint: "when a false yes is costly" },
  { value: 0.1, label: `10${nb}%: one study in ten`, hint: "when a missed difference is costly" },
];

const names: Record<Plannable, string> = {
  triangle: "Triangle",
  "paired-preference": "Paired preference",
  "line-scale": "Line scale",
};

/** One sentence each: what a yes will and will not allow to say. */
const options: readonly { value: Plannable; label: string; hint: string }[] = [
  {
    value: "triangle",
    label: names.triangle,
    hint: "Is there any difference? A yes says that people like these notice one, not what differs or which is better.",
  },
  {
    value: "paired-preference",
    label: names["paired-preference"],
    hint: "Which one is preferred? A yes says that more people choose the one, not why, nor that they can tell the two apart for sure.",
  },
  {
    value: "line-scale",
    label: names["line-scale"],
    hint: "How much of a property? A yes says by how many points products differ on it, not whether anybody likes that.",
  },
];

/** How it goes on the tray. */
const is: Record<Plannable, string> = {
  triangle:
    "Three coded samples, two alike and one different. The panelist picks the different one; a guess is right one time in three.",
  "paired-preference":
    "Two coded samples, half of the trays in one order and half in the other. Nobody is right or wrong.",
  "line-scale":
    "Every product once on each tray, under a code. The panelist marks each property of each sample on a bare line between two end words.",
};

type Says = { yes: string; no: string };
const says: Record<Plannable, Record<Goal, Says>> = {
  triangle: {
    difference: {
      yes: "You may say that people like these notice a difference.",
      no: "A no does not let you say that they are the same: the panel may have been too small.",
    },
    similarity: {
      yes: "You may say that fewer people than the limit notice a difference. It does not say that nobody does.",
      no: "A no does not let you say that they differ: the panel may have been too small to show likeness.",
    },
  },
  "paired-preference": {
    difference: {
      yes: "You may say which one more of these people prefer, and by how much.",
      no: "A no does not let you say that both are liked alike: the panel may have been too small, or split in two.",
    },
    similarity: { yes: "", no: "" },
  },
  "line-scale": {
    difference: {
      yes: "You may say how far apart the products are on each property, and how sure that is.",
      no: "A no does not let you say that they are the same: the interval says how large a difference may still be.",
    },
    similarity: { yes: "", no: "" },
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
    triangle: "The risk of seeing a difference that is not there, called alpha. It is fixed at lock.",
    "paired-preference":
      "The risk of seeing a preference that is not there, in either direction, called alpha. It is fixed at lock.",
    "line-scale":
      "The risk of seeing a difference that is not there, over all pairs of products of one property, called alpha. It is fixed at lock.",
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
      "If you know which property differs, the line scale says how much, often with fewer people.",
      "The triangle is the wrong test where two portions of one product can often be told apart.",
    ],
    "paired-preference": [
      "A preference says nothing of how strong the liking is, and people state one even between two alike.",
      "Ask it of people who eat the food, and never on the same tray after a difference test.",
    ],
    "line-scale": [
      "Judges manage about six samples of a savory food in a sitting.",
      "One property is the question. Every further one raises the chance of a false alarm; the report looks at them beside it.",
    ],
  } satisfies Record<Plannable, readonly string[]>,
};
