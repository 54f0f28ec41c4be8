import type { NoReading } from "../../model/balance-line.ts";
import type { ProblemCode, ProblemDetails } from "../../model/problem.ts";

type BalanceCode = Extract<ProblemCode, `balance/${string}`>;

/** What can go wrong with a balance on the cable. */
export const balanceProblems: { [C in BalanceCode]: (details: ProblemDetails[C]) => string } = {
  "balance/not-offered": () =>
    "This browser cannot read a balance, or this page was not opened over https. Type the masses instead.",
  "balance/none-chosen": () =>
    "No balance was chosen. Connect again and pick its port in the browser’s window; if none is listed, check the cable.",
  "balance/not-allowed": () =>
    "The browser does not let this page use serial ports. Allow them for this page in the browser’s settings, or type the masses.",
  "balance/not-opened": (d) =>
    `The port could not be opened (${d.reason}). Close other windows and programs that use the balance, then connect again.`,
  "balance/lost": () =>
    "The connection to the balance was lost; a reading that was under way was not taken. Check cable and power, then connect again.",
  "balance/nothing-yet": () =>
    "Nothing has come from the balance. Press its print key, or set it to send by itself; if it does so already, check the cable and the speed (baud).",
  "balance/not-readable": () =>
    "What comes from the balance cannot be read. Check the speed (baud), the data bits and the parity: they must be as in the menu of the balance.",
};

/** Why a line of the balance is no reading. */
const noReadings: Record<NoReading, string> = {
  cut: "it did not arrive whole",
  noise: "it is garbled",
  "too-long": "it has no end",
  overload: "overload: too much on the balance",
  underload: "underload: the pan is missing or lifted",
  error: "the balance reports an error",
  unit: "its unit is neither g, kg nor mg; set the balance to grams",
  "no-unit": "it has no unit, and nobody said that this balance sends grams without one",
  "not-understood": "it is not understood",
  "out-of-range": "it has more digits than fit here",
};

/** Reading a balance over a cable. */
export const balanceWords = {
  summary: {
    closed: "Balance on a cable: not connected",
    opening: "Balance on a cable: connecting",
    open: "Balance on a cable: connected",
  },
  hint: "Reads a balance that sends its display as text over USB or a serial cable. Speed and bits have to be as they stand in its menu. Typing always works.",
  speed: "Speed (baud)",
  frame: "Data bits, parity, stop bits",
  frameText: (data: number, parity: "none" | "even" | "odd", stop: number) =>
    `${data}, ${{ none: "no parity", even: "even parity", odd: "odd parity" }[parity]}, ${stop}`,
  bare: "It sends grams without a unit",
  connect: "Connect the balance",
  another: "Pick another port",
  disconnect: "Disconnect",
  lastRead: (read: string, line?: string) => `Last read: ${read}${line === undefined ? "" : ` It came as “${line}”.`}`,
  nothing: "nothing yet.",
  reading: (grams: string, stable: boolean | null) =>
    `${grams.replace("-", "\u2212")}\u00a0g, ${stable === null ? "stable or not: the balance does not say" : stable ? "stable" : "not stable"}.`,
  none: (why: NoReading) => `no reading: ${noReadings[why]}.`,
  waitsFor: (why: NoReading) => `No reading yet: ${noReadings[why]}.`,

  take: "Take from balance",
  /** What the way to take is called for those who hear the page. */
  takeInto: (field: string) => `Take from balance: ${field}`,
  stop: "Stop waiting",
  waiting: "Waiting for the next reading.",
  unstable: "Not stable yet.",
  negative: "Below zero: set the balance to zero.",
};
