import type { Effect, MeasureKind, Prediction } from "../../model/claim.ts";
import { listed, organizer, plural } from "./organizer.ts";

/** Words of claims: the list, the page of one, and what a study's page says of them. What is found has its own file. */
const { nb } = organizer;

/** What can differ between two versions, in the order of the page. */
const fields = {
  title: "title",
  words: "the claim",
  first: "what is compared",
  second: "what is compared with it",
  heldBy: "who holds it",
  expected: "what was expected",
  expectedOn: "the day of that",
  explanations: "explanations",
  measures: "what is measured",
} as const;
export type ClaimField = keyof typeof fields;
export const claimFields = Object.keys(fields) as ClaimField[];

/** The two that are compared, as sentences name them while one has no name yet. */
export type Names = { first: string; second: string };

export const claimWords = {
  heading: "Claims",
  emptyHeading: "No claim yet",
  empty:
    "A claim is a question larger than one test: does a step really do what is said, and for the reason that people give? It holds the explanations that compete, what each of them predicts, and the studies that tell them apart.",
  untitled: "Untitled claim",
  begin: "Begin a claim",
  beginHint: "It takes studies in that are here already, and those to come.",
  offline: "The server cannot be reached. This is what this device holds.",
  offlinePage: "The server cannot be reached. What you change is kept here and sent later.",
  invented: "part of the demo: invented",
  inventedNote: "Part of the demo: an invented kitchen, and no finding about any food.",
  columns: { title: "claim", state: "results", last: "last change" },
  state: (known: number, all: number) =>
    all === 0 ? "nothing to measure yet" : known === 0 ? "no result yet" : `${known}${nb}of${nb}${all} in`,
  find: {
    label: "Find claims",
    words: "Words in title, claim or explanations",
    shown: (shown: number, all: number) =>
      shown === all ? plural(all, "claim", "claims") : `${shown}${nb}of ${plural(all, "claim", "claims")}`,
    none: "No claim fits. Use fewer words.",
    clear: "Show all claims",
  },
  unknown: "There is no claim at this address",
  unknownText: "This device does not know this claim yet. It appears here once the server has sent it.",
  allClaims: "All claims",
  last: (name: string, at: string) => `last changed by ${name}, ${organizer.dayAndTime(at)}`,
  note: "Different measures stand beside each other. They are never added up into one score.",
  noteBlind: "Nothing of this page goes to a tablet or to a reader.",
  noteBefore:
    "Write down what each explanation predicts before a key is opened. What is said afterwards stays, and is shown as said afterwards.",
  claim: {
    heading: "The claim",
    title: "Title",
    words: "The claim, in your words",
    wordsHint:
      "What is said to happen, and why. Such as: steaming first makes them juicier, because less water is lost.",
    first: "What it is held against",
    firstHint: "What you do now, such as: current",
    second: "What the claim is about",
    secondHint: "Such as: new. Every direction on this page is that of this one against the other.",
    unnamedFirst: "the first",
    unnamedSecond: "the second",
  },
  expectation: {
    heading: "Expected beforehand",
    heldBy: "Who holds the claim",
    expected: "What the team expected before anything was tasted or weighed",
    on: "Written down on",
    onHint: "As a day: 2026-05-12",
    onWrong: "Write the day as year, month and day with dashes: 2026-05-12. The last good day stays.",
    said: (heldBy: string) => `Held by ${heldBy}.`,
    expectedOn: (day: string) => (day === "" ? "Expected beforehand:" : `Expected on ${day}:`),
  },
  explanation: {
    heading: "Explanations",
    hint: "The claim’s own, and what else could bring about the same. A rival is of use where it predicts something else.",
    own: "The claim’s own explanation",
    rival: (at: number) => `Rival ${at}`,
    name: "In a few words",
    words: "In full",
    unnamed: (at: number) => (at === 0 ? "the claim’s own" : `rival ${at}`),
    add: "Add a rival",
    remove: (name: string) => `Remove ${name}`,
    removed: (name: string) => `Removed “${name}” and what it predicts.`,
    full: (most: number) => `A claim has at most ${most}${nb}explanations.`,
  },
  measure: {
    heading: "What can be measured",
    hint: "One entry for each thing that an explanation can be wrong about: a mass, how strongly something is perceived, what people like better.",
    none: "Nothing is named yet.",
    unnamed: "Not named yet",
    name: "What is measured",
    nameHint: "Such as: juiciness after 10 s, or cook loss",
    kind: "What kind of thing is it?",
    kinds: {
      mass: "a mass, weighed",
      intensity: "a perceived intensity",
      preference: "a preference",
      noticed: "whether a difference is noticed at all",
    } satisfies Record<MeasureKind, string>,
    about: "What is looked at?",
    abouts: {
      products: "the difference between the two",
      interaction: "whether that difference depends on a second factor, such as how it is served",
    },
    predicts: "What each explanation predicts",
    add: "Add something to measure",
    remove: (name: string) => `Remove ${name}`,
    removed: (name: string) => `Removed “${name}” with its predictions and studies.`,
    full: (most: number) => `A claim holds at most ${most}${nb}things to measure.`,
  },
  predictions: (prediction: Prediction, kind: MeasureKind, interaction: boolean, { first, second }: Names): string => {
    switch (prediction) {
      case "silent":
        return "says nothing";
      case "none":
        return interaction ? "does not depend on it" : kind === "preference" ? "neither preferred" : "no difference";
      case "differs":
        return "a difference";
      case "higher":
        return interaction ? "grows with it" : kind === "preference" ? `${second} preferred` : `higher with ${second}`;
      case "lower":
        return interaction ? "shrinks with it" : kind === "preference" ? `${first} preferred` : `lower with ${second}`;
    }
  },
  attached: {
    heading: "Studies that measure it",
    none: "No study is attached yet.",
    nothing:
      "No study here measures such a thing. Begin one in the list of studies; it can be attached while it is still a draft.",
    pick: "A study",
    notChosen: "choose a study",
    attach: "Attach it",
    question: "Its property",
    effect: "What of it",
    effects: (effect: Effect, [one, other]: readonly [string, string]): string => {
      switch (effect) {
        case "pair":
          return "the difference between two of its products";
        case "first-factor":
          return `what ${one} does on average`;
        case "second-factor":
          return `what ${other} does on average`;
        case "interaction":
          return `whether ${one} depends on ${other}`;
      }
    },
    product: (name: string) => `Its product that is “${name}”`,
    turned: "Read its direction the other way round",
    remove: (title: string) => `Take off ${title}`,
    removed: (title: string) => `Took off “${title}”.`,
    unknownStudy: "a study that is not on this device",
  },
  typed: {
    heading: "A result, typed by hand",
    add: "Type a result in",
    hint: (names: Names) =>
      `As it was worked out elsewhere: ${names.second} less ${names.first}. Without an interval a number shows nothing either way.`,
    difference: "Difference",
    low: "Interval from",
    high: "to",
    unit: "Unit",
    unitHint: "Such as: percentage points of the raw mass",
    matters: "Smallest difference that matters",
    mattersHint: "In the same unit, if it was named beforehand. Else leave it empty.",
    source: "Where it comes from",
    sourceHint: "Such as: ledger of 12 May, four batches each, interval after Welch",
    remove: "Take the typed result away",
    removed: "Took the typed result away.",
  },
  versions: {
    heading: (count: number) =>
      `This claim was changed on ${plural(count, "device", "devices")} at the same time. You see the version that was written last.`,
    other: (name: string, at: string, differs: readonly ClaimField[]) =>
      `Another is from ${name}, ${organizer.dayAndTime(at)}. ${differs.length === 0 ? "It says the same." : `It differs in: ${listed(differs.map((field) => fields[field]))}.`}`,
    take: "Use that version",
    takeOf: (name: string) => `: the one from ${name}`,
    keep: "Keep what you see",
  },
  ofStudy: {
    attached: "Part of the claim",
    summary: "Attach to a claim",
    none: "There is no claim yet that this study could speak to.",
    toClaims: "Write one",
    place: "Claim and what is measured",
    notChosen: "choose one",
    option: (claim: string, measure: string) => `${claim}: ${measure}`,
    submit: "Attach",
  },
};
