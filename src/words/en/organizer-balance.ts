import type { NoReading } from "../../model/balance-line.ts";

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
  coarse: (step: number) =>
    `Not taken: the balance sends kilograms in steps of ${step}\u00a0g, which grams would not show. Set it to grams, or note its smallest step first.`,
  negative: "Below zero: set the balance to zero.",
};
