/** The frame of the lead's screens: header, status line, list of studies, first enrollment. Parts have files of their own. */
const nb = "\u00a0";

/** Days and times as the device at hand shows them, in its own time zone. */
const clock = (instant: string): string =>
  new Date(instant).toLocaleTimeString("en-US", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const day = (instant: string): string => new Date(instant).toLocaleDateString("en-US", { dateStyle: "medium" });
export const plural = (count: number, one: string, many: string): string => `${count}${nb}${count === 1 ? one : many}`;
/** "A", "A and B", "A, B and C". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

export const organizer = {
  name: "Cloche",
  nb,
  clock,
  day,
  dayAndTime: (instant: string): string => `${day(instant)}, ${clock(instant)}`,
  documentTitle: (page: string) => `${page} \u00b7 Cloche`,
  loading: "Loading\u2026",
  notes: "Notes",
  untitled: "Untitled study",

  bar: {
    nav: "Main",
    studies: "Studies",
    claims: "Claims",
    tablets: "Tablets",
    kitchen: "Kitchen",
    /** The reader's page: what was opened, and answers from elsewhere. */
    results: "Results",
  },
  status: {
    kept: (at: string) => `kept here ${clock(at)}`,
    keptHere: "kept here",
    sent: (at: string) => `sent ${clock(at)}`,
    waiting: "typing\u2026",
    keeping: "keeping\u2026",
    failed: "not kept yet",
    notSent: (count: number) => `kept here, not sent yet \u00b7 ${count}`,
    aside: (count: number) => `${plural(count, "record needs", "records need")} a look`,
    unknown: "the server does not know this browser",
    again: "Set it up again",
    join: " \u00b7 ",
    asideTitle:
      "The server kept these records aside or refused them. They are kept here too; show this line to whoever runs the server.",
  },
  update: {
    ready: "A new version of Cloche is ready.",
    accept: "Load it now",
    later: "It loads by itself when this page is opened anew.",
  },

  setup: {
    heading: "Set up this browser",
    lead: "With a lead\u2019s code this browser can plan studies, lock them and open their keys. With a code for the kitchen it sees waves, temperatures and checks.",
    name: "Your name",
    nameHint: "Other devices of this kitchen see it. It is not in the log of any study.",
    code: "One-time code",
    codeHint:
      "The server shows it when it starts for the first time; a lead who is set up already makes one under Tablets.",
    submit: "Set up",
    working: "One moment\u2026",
    missingName: "Type your name.",
    missingCode: "Type the one-time code.",
    wrongRole: "This code is for a tablet or a reader. Ask for the code of a lead or of the kitchen.",
    already: "This browser is set up already.",
    codeUnused: "The code in the address was not used.",
    again: {
      heading: "Set up this browser again",
      lead: "The server does not know this browser any more: its data was lost, or somebody withdrew this browser. Everything kept here stays, and is sent again once the browser is set up.",
      codeHint:
        "A server that knows no lead shows a code when it starts. Otherwise another lead makes one under Tablets, or whoever runs the server starts it with --lead-link.",
    },
  },

  errors: {
    heading: "This page cannot be shown",
    kept: "What you wrote is kept.",
    again: "Load the page anew",
    listHeading: "Please look at these",
    unknownPage: "There is no page at this address",
    unknownText: "The address may be mistyped, or the study is not on this device.",
    allStudies: "All studies",
    noStudy: "This device does not know this study yet. It appears here once the server has sent it.",
  },
};
