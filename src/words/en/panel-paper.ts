import type { PaperDifference } from "../../model/paper-agree.ts";

const listed = (items: readonly string[]): string => items.join("; ");
/** A tray's label that stays on one line. */
const whole = (label: string): string => label.replace("-", "\u2011");

/** What staff read while they type in ballots on paper. Nothing here says what a first person typed. */
export const panelPaper = {
  title: "Type in a paper ballot",
  lead: "One person types in what stands on the paper, a second person types it in anew, without looking at the first. Only what both typed the same counts.",
  none: "No tasting is set up on this tablet, so there is no ballot to type in.",
  noPaper: "Paper ballots of chewed portions cannot be typed in. Keep the paper, and tell the lead.",
  field: "Tray number on the ballot",
  next: "Go on",
  back: "Back to the trays",
  nothingTyped: "Please type the tray number first, with the digit after the dash.",
  seal: (commitment: string) =>
    `The foot of the ballot must say: Seal ${(commitment.slice(0, 12).match(/.{4}/g) ?? []).join("\u00a0")}. If it says another one, it belongs to another tasting.`,
  begun: (typings: readonly { label: string; person: 1 | 2 }[]) =>
    `Begun on this tablet and not kept: ${listed(typings.map(({ label, person }) => `tray ${whole(label)}, ${person === 1 ? "first" : "second"} person`))}. Whoever began it types the number and goes on.`,

  who: {
    title: (label: string) => `Who types in tray ${whole(label)}?`,
    once: (label: string) =>
      `Tray ${whole(label)} was typed in here once. It counts when somebody else has typed the same.`,
    never: (label: string) => `Nobody has typed in tray ${whole(label)} on this tablet.`,
    checked: (label: string) => `Tray ${whole(label)} was typed in here by two people, and both typed the same.`,
    fresh: (label: string) =>
      `Tray ${whole(label)} is typed in anew, by two people again. What was typed in before stays as it is in the log.`,
    anew: "Type it in anew",
    whenVoided:
      "If the lead has voided this ballot on paper and wants it typed in again, both people type it in anew. Until both have, it does not count.",
    differs: "The two typings differ. One of the two people types the whole ballot again.",
    where: (difference: readonly string[]) => `They differ in: ${listed(difference)}.`,
    legend: "I am",
    options: {
      "first-fresh": "the first to type it in",
      "first-after": "the first person; the second one typed it in here, and I have not seen what",
      "first-again": "the person who typed it in first",
      "second-elsewhere":
        "the second person; it was typed in before on another tablet, not by me, and I have not seen what was typed",
      "second-after": "the second person; I did not type it the first time, and have not seen what was typed",
      "second-again": "the person who checked it",
    },
    pick: "Please say first which of the two you are.",
    taken:
      "Another tablet sent something of this tray: answers, or this ballot. If somebody answered it on a tablet too, the lead decides which of the two counts.",
    closed:
      "The tasting is closed. What is typed in now is late: it counts only if the lead admits it before the key is opened.",
  },

  form: {
    title: (label: string) => `Tray ${whole(label)}, as it stands on the paper`,
    anew: (label: string) => `Tray ${whole(label)} once more, as it stands on the paper`,
    head: "At the head of the ballot",
    headHow: "Tick what is ticked on the paper.",
    begun:
      "This was begun before and not kept. What was typed then is here again. Hold it against the paper from the top.",
    how: "Type what is there, also where it looks odd. What was left empty stays empty here.",
    length: "Length of the printed lines",
    lengthHow: (planned: number) =>
      `Measure one of the lines from end to end; ${planned} mm were planned, but printers scale. Then measure each stroke from the left end of its line, to the millimeter.`,
    mm: "mm",
    sample: "Sample",
    stroke: "from the left end",
    order: (place: string) => `Place of sample ${place}`,
    noPlace: "empty",
    places: "Places as written into the boxes.",
    leftEmpty: "left empty",
    with: "with",
    reason: "Reason, if one is written beside it",
    submit: "Keep",
    leave: "Do not keep",
    question: (question: number) => `question ${question}`,
    theQuestion: "the question",
  },
  /** What hinders keeping, beside what it is about. */
  wrong: {
    "length-missing": "Please measure a line first: the strokes mean nothing without its length.",
    "length-odd": (least: number, most: number) =>
      `A line of this ballot cannot be of that length. Please measure it in whole millimeters: between ${least} and ${most}.`,
    "no-millimeters": "Please type whole millimeters, such as 74.",
    beyond: (length: number) => `The line ends at ${length} mm. Please measure the stroke again.`,
    both: "There is an answer and “I cannot judge this”. Please type only what the paper says; where it says both, leave out the answer.",
    order: (count: number) =>
      `Each place from 1 to ${count} goes to one sample. Where the paper has no such order, leave all places empty.`,
  },
  wrongAt: (places: readonly string[]) => `Please look again at: ${listed(places)}.`,
  notPlanned: (planned: number) => `Not the ${planned} mm that were planned: the report will say so.`,
  /** Said once before it is kept; a second press keeps it. */
  confirm: {
    notCleared:
      "A box at the head of the ballot is not ticked, so none of its answers counts, and none is kept. If that is what the paper says, press Keep again.",
    empty: (places: readonly string[]) =>
      `Left empty, which counts as not answered: ${listed(places)}. If that is what the paper says, press Keep again.`,
  },
  allEmpty: "Nothing is filled in. A ballot without any answer is not typed in.",

  done: {
    title: {
      first: "Kept, and not checked yet",
      alone: "Kept",
      agrees: "Both typed the same",
      differs: "The two typings differ",
    },
    lines: {
      first: (label: string) => [
        `Somebody else now types tray ${whole(label)} in anew, best on this tablet. Until then it does not count.`,
      ],
      alone: (label: string) => [
        `The first typing of tray ${whole(label)} is not on this tablet, so it cannot tell whether both are the same. The lead\u2019s page says so, once both tablets have sent what they hold; if they differ, look at the paper again.`,
        "Where the other tablet is at hand, type it in there a second time: it says at once whether both are the same.",
      ],
      agrees: (label: string) => [`The ballot of tray ${whole(label)} counts as the paper says.`],
      differs: (label: string) => [
        `Look at these places of the paper together. Then one of you types the whole ballot of tray ${whole(label)} again.`,
      ],
    },
    again: "Type this tray again",
    another: "Another ballot",
  },
  differences: {
    head: "the boxes at its head",
    length: "the length of the lines",
  } satisfies Partial<Record<keyof PaperDifference, string>>,
};
