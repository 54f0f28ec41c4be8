import { plural } from "./reader-parts.ts";

/** The page for answers that were collected elsewhere. */
export const elsewhere = {
  address: "./?elsewhere",
  link: "Answers from elsewhere: the result of a CSV file",
  heading: "Answers from elsewhere",
  lead: "A CSV file of answers that were not collected with Cloche, computed by the same functions as a study.",
  local: "The file is read and computed in this page, on this device. Nothing is sent anywhere, and nothing is kept.",
  file: "CSV file",
  chosen: (name: string) => `Chosen: ${name}`,
  method: "Method",
  columnsHead: "Columns of the file",
  columns: {
    choice: "panelist, correct (1 right, 0 wrong); if people answered more than once also repeat (1, 2, \u2026)",
    pair: "panelist, choice (the name of a product, or none); one line a person",
    kinds:
      "panelist, served (same or different; A or not A), answer (the same words); if people answered more than once also repeat",
    scale:
      "panelist, product, value (a number, empty for no answer); also repeat, attribute and moment where there are several; scale where values are steps from 1 (steps 9, liking 9, just-right 5), and label for the words of a step",
    portions:
      "panelist, product, grams_in and grams_out (what went into the mouth and what came back), or gain_percent instead of the two; also repeat, cup (empty) and rinse (water), which are taken off, and seconds of chewing. The first product is what others are compared with",
    rank: "panelist, product, rank (1, 2, \u2026 with 1 for the least; shared places as their mean, 2.5; empty for no answer)",
  },
  anyOrder:
    "The first line names the columns, in any order; other columns are left unread. Commas, semicolons or tabs.",
  goal: "What the test is to show",
  goals: { difference: "A difference", similarity: "That few can tell" },
  limit: "Limit: share who can tell that still counts as alike, in percent",
  fixedAs: "The limit was fixed as",
  fixedAsIs: { share: "a share who can tell", distance: "a distance d\u2032" },
  limitDistance: "Limit: distance d\u2032 that still counts as alike",
  confidence: "Confidence of the two-sided intervals, in percent",
  sides: "Which product was to have more",
  sidesAre: { one: "One was named beforehand; right is to choose it", two: "Either might have more" },
  badNumber: (label: string, above: number, most: number) => `${label}: type a number above ${above}, at most ${most}.`,
  beta: "Risk of saying \u201cwithin the limit\u201d wrongly (beta), in percent",
  alpha: "Risk of a false alarm (alpha), in percent",
  none: "\u201cNo preference\u201d",
  noneRules: {
    "not-offered": "was not an answer",
    dropped: "was an answer; leave it out of the test",
    split: "was an answer; split it evenly between the two",
    "three-way": "was an answer; report it as a third share",
  },
  chewed: {
    control: "Inert portion: its name in the file (empty for none)",
    matters: "Smallest difference that matters, in percentage points (empty for none)",
    seconds: "Seconds of chewing as planned (empty if nobody said)",
    balanceStep: "Step of the balance in grams, such as 0.01 (empty: the last digit of the readings)",
    badStep: "Step of the balance: type a mass in grams like 0.01, or leave it empty.",
  },
  beforehand:
    "Choose as it was agreed before the answers were known. A rule chosen after looking at them makes the numbers mean less than they say.",
  submit: "Compute the result",
  again: "Other answers",
  missingFile: "Choose a CSV file first.",
  badPercent: (label: string, least: string, most: string) => `${label}: type a number ${least} and ${most}.`,
  above: (value: number) => `above ${value}`,
  atMost: (value: number) => `at most ${value}`,
  below: (value: number) => `below ${value}`,
  unreadable: "This browser could not read the file. Choose it again.",
  extra: (columns: readonly string[]) =>
    `Not read: ${columns.length === 1 ? "the column" : "the columns"} ${columns.map((column) => `\u201c${column}\u201d`).join(", ")}.`,
  origin: (file: string, rows: number) =>
    `${file} \u00b7 ${plural(rows, "answer", "answers")} read \u00b7 not a study of Cloche: no key, no lock, no record of how it was served`,
  top: (test: string, file: string) => `${test} \u00b7 from ${file}`,
  unnamed: ["the first product", "the second product"] as const,
  files: "Files",
  source: "The file",
  fingerprint: "SHA-256 of its text",
  rows: "Answers read",
};
