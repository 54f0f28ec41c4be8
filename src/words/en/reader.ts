import { details } from "./reader-details.ts";
import { done, orders } from "./reader-done.ts";
import { elsewhere } from "./reader-elsewhere.ts";
import { files } from "./reader-files.ts";
import { large } from "./reader-large.ts";
import { day, dayAndTime, grouped, plural } from "./reader-parts.ts";
import { pictures, scale } from "./reader-pictures.ts";
import { reshuffle } from "./reader-reshuffle.ts";
import { temperatures } from "./reader-temperatures.ts";

/**
 * The furniture of the reader's page: headings, labels, buttons, dates. The sentences that state a result are made in
 * `report.ts`.
 */

const verify = {
  start: "Verify this result",
  again: "Verify again",
  good: "Verified on this device just now:",
  bad: "Not verified. Do not rely on this result before this is cleared up.",
  points: {
    read: (_good: boolean, events: number) => `${plural(events, "record", "records")} read from the study file.`,
    "left-out": (_good: boolean, events: number) =>
      `${plural(events, "record", "records")} left out, because a newer version of Cloche wrote them. Verify with that version.`,
    links: (good: boolean, broken: number) =>
      good
        ? "Every record names the one its device wrote before by its hash, and all these links hold."
        : `${plural(broken, "record does", "records do")} not follow the one before: the log was changed, or a part is missing.`,
    missing: (good: boolean, missing: number) =>
      good
        ? "Every record that was known at the close and the reveal is there."
        : `${plural(missing, "record", "records")} known at the close or the reveal ${missing === 1 ? "is" : "are"} missing.`,
    commitment: (good: boolean) =>
      good
        ? "The opened key gives the commitment that was locked."
        : "The opened key does not give the commitment that was locked.",
    result: (good: boolean) =>
      good
        ? "Computed anew from the records, the result is the same in every digit."
        : "Computed anew from the records, the result is not the one shown.",
  },
};

const problemsHere = {
  heading: "This page cannot be shown",
  again: "Try again",
  enrollLead: "Enroll this device again",
  heldBefore: "This is what this device received before.",
};

/** Everything on the reader's page that is not a sentence of the result. */
export const reader = {
  name: "Cloche",
  documentTitle: (title: string) => `${title} \u00b7 Cloche`,
  grouped,
  day,
  dayAndTime,
  loading: "Loading\u2026",
  large,
  reshuffle,
  enroll: {
    heading: "Read results",
    lead: "Ask the lead for a reader code. It works once, within ten minutes.",
    code: "Reader code",
    name: "Your name, as the lead should see it",
    submit: "Go on",
    working: "One moment\u2026",
    missing: "Fill in the code and a name.",
    wrongRole: "This code is not for a reader. Ask the lead for a reader code.",
  },
  list: {
    heading: "Results",
    none: "No study has been opened yet. A study appears here after the lead has closed it and opened its key.",
    opened: (instant: string) => `opened ${day(instant)}`,
    invented: "a demo with an invented kitchen",
    all: "All results",
    toLead: "Studies and tablets",
  },
  sealed: {
    heading: "This study is sealed",
    text: "Its result appears here after the lead has closed the study and opened the key. Until then nobody sees numbers, so that nothing can sway the tasting.",
    again: "Look again",
    unknown: "There is no opened study at this address",
    unknownText:
      "It may still be sealed, or the address may be mistyped. A result appears after the lead has closed the study and opened its key.",
  },
  organizer: "/organizer/",
  organizerAgain: "/organizer/#/again",
  top: {
    blank: "Blank study: every cup held one product. This is no finding about any food.",
    invented: "Demo: an invented kitchen. This is no finding about any food.",
    locked: (instant: string) => `locked ${day(instant)}`,
    matches: (commitment: string) => `key matches its seal ${grouped(commitment)}`,
    differs: (commitment: string) => `key does not match its seal ${grouped(commitment)}`,
    stop: "Stop.",
    mismatch:
      "The opened key is not the one that was locked. Nothing below can be relied on. Compare the sealed page with the commitment in Details.",
    missing: (events: number) =>
      `${plural(events, "record", "records")} that ${events === 1 ? "was" : "were"} known when the key was opened ${events === 1 ? "is" : "are"} not on this device, or cannot be read by this version. The numbers may change.`,
  },
  pictures,
  sections: {
    numbers: "The numbers",
    notShown: "What this does not show",
    departures: "Departures from the plan",
  },
  done,
  temperatures,
  orders,
  details,
  scale,
  elsewhere,
  verify,
  exports: {
    ...files,
    heading: "Files and proof",
    fileName: (title: string, what: string) =>
      `${
        title
          .replace(/[^\p{L}\p{N}]+/gu, "-")
          .replace(/^-|-$/g, "")
          .toLowerCase() || "study"
      }-${what}`,
  },
  remarks: {
    heading: "Remarks from panelists",
    show: (count: number) => `Remarks from panelists (${count})`,
    hide: "Hide the remarks",
    none: "No remarks were left.",
    tray: (label: string) => `tray ${label}`,
  },
  print: {
    page: "page",
    of: "of",
    commitment: (commitment: string) => `commitment ${grouped(commitment)}`,
    printed: (instant: string) => `printed ${dayAndTime(instant)}`,
  },
  problems: problemsHere,
};
