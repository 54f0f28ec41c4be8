import { organizer, plural } from "./organizer.ts";

const answers = (count: number): string => plural(count, "answer", "answers");

/** Words of a look that the locked stopping rule allows. They say how many answers, never how many are right. */
export const lookWords = {
  heading: "Look at the stopping rule",
  action: (look: number) => `Take look ${look}`,
  finish: (look: number) => `Finish look ${look}`,
  stopAction: "The rule says stop: close the study",
  lead: "The plan fixed this look before anybody tasted. The key is opened in the memory of this page, the rule is asked, and both are forgotten. You will read one of two things: go on, or stop.",
  counted: "Each look is in the log and in the report, also one that is interrupted. Tablets are told nothing.",
  here: (count: number, planned: number) => `${answers(count)} of ${planned} planned count at the moment.`,
  due: (look: number) => `Look ${look} is due now.`,
  later: (look: number, from: number) => `Look ${look} comes with ${answers(from)}.`,
  none: "No look is left. When everybody has answered, close the study; the rule decides when the key is opened.",
  unfinished: (look: number, count: number) =>
    `Look ${look} was begun over ${answers(count)} and not finished. It can be finished: it sees the same answers as before.`,
  elsewhere: (look: number, name: string) =>
    `Look ${look} was begun on another device (${name}) and is not finished. Finish it there; no other device gets its answers.`,
  online: "A look needs the server: the answers lie there.",
  missing: "Fill in what opens the key first.",
  word: "LOOK",
  go: "Take the look",
  working: "Asking the rule\u2026",
  said: {
    "go-on": "Go on.",
    stop: "Stop: close the study.",
  },
  goOnMore: "Serve and answer as planned. The result stays sealed.",
  stopMore:
    "The rule has decided. Serve no further tray, and close the study. What it decided is read when the key is opened.",
  close: "Close the study",
  before: "Looks so far",
  row: (look: number, at: string, count: number, said: "go-on" | "stop" | null) =>
    `Look ${look}, ${organizer.dayAndTime(at)}, over ${answers(count)}: ${
      said === null ? "not finished" : said === "stop" ? "stop" : "go on"
    }`,
  notHere: "The plan of this study has no stopping rule. It goes on until everybody has answered.",
  closed: "The study is closed. No look is left.",
};
