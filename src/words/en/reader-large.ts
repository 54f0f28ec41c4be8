import { wholeNumber } from "../number.ts";
import { differenceOf } from "./mixed.ts";
import { plural } from "./reader-parts.ts";

/** What the page says when there is more than it can draw or list, and while it computes. */
export const large = {
  stacked: (people: number, each: number, averaged: boolean) =>
    `The marks of ${wholeNumber(people)} panelists${averaged ? ", repeats averaged" : ""}: a dot stands for up to ${plural(each, "mark", "marks")} of the product beside it, one above the other where the marks are alike; the stroke is the mean. With so many there is no line for each panelist.`,
  stackedDifference: (mixed: boolean) =>
    `Below, on the same scale: the ${differenceOf(mixed)} with its interval, its zero under the mean it is counted from.`,
  noTable: (rows: number) =>
    `A table of ${wholeNumber(rows)} rows has no place on a page. All of it is in the files below: single answers as CSV, what was computed of each panelist as JSON.`,
  computing: "Computing the result. You can leave this page open and do something else.",
  stop: "Stop",
  stopped: "Stopped. Nothing was computed.",
  again: "Compute it",
  keyInFile: (trays: number) =>
    `The key of ${wholeNumber(trays)} trays has no place on a page. It is in the text of the key, which the button above saves.`,
  incomplete: (people: number) =>
    `${plural(people, "panelist", "panelists")} left something without a mark; who and what is in the files below. No mark is no answer, not zero.`,
};
