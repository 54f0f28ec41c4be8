import type { Departure } from "../../model/record.ts";
import { nbsp, shortNumber, wholeNumber } from "../number.ts";
import { firstListed, listed } from "./phrases.ts";

/** What of the kitchen's day did not go by the plan, one sentence for each departure. */

type Kitchen = Extract<
  Departure,
  {
    what:
      | "core-below"
      | "held-past"
      | "not-written-down"
      | "served-blocked"
      | "served-outside-window"
      | "batch-changed"
      | "batch-not-recorded"
      | "person-noted"
      | "serving-halted"
      | "tray-unsound"
      | "sheet-not-returned"
      | "exception-refused"
      | "entry-voided";
  }
>;
type Of<W extends Kitchen["what"]> = Extract<Kitchen, { what: W }>;
type Sentences = { [W in Kitchen["what"]]: (departure: Of<W>) => string };

const noted = (note: string): string => (note.trim() === "" ? "" : ` Note: “${note.trim()}”`);
const degrees = (celsius: number | string): string => `${celsius}${nbsp}°C`.replace("-", "\u2212");
const trays = (numbers: readonly number[]): string =>
  `${numbers.length === 1 ? "Tray" : "Trays"} ${firstListed(numbers)}`;
const batchIs = ({ batch, wave }: { batch: string; wave: number }): string =>
  `Wave ${wholeNumber(wave)}, batch “${batch}”`;

/** "first read 71 °C and then 76 °C" */
const readings = (celsius: readonly string[]): string => {
  const [first = "", ...further] = celsius.map(degrees);
  return further.length === 0 ? `read ${first}` : `first read ${first}, then ${listed(further)}`;
};

const coreEnds: Record<Of<"core-below">["ended"], (by: string) => string> = {
  met: () => "The last reading passed.",
  allowed: (by) => `${by} allowed it to be served so.`,
  below: () => "No reading passed.",
  apart: () => "The readings disagree, and none settled it.",
  replaced: () => "Another batch took its place after that.",
};

const heldEnds: Record<Of<"held-past">["ended"], string> = {
  met: "The last reading passed.",
  allowed: "",
  below: "No later reading passed.",
  apart: "The readings disagree, and none settled it.",
  replaced: "Another batch took its place after that.",
};

/** Why the log held a wave back when its trays were noted as served. */
const blocks: Record<Of<"served-blocked">["why"], string> = {
  "not-read": "no core temperature was on record yet",
  below: "the core of a batch was below its limit",
  apart: "readings of a batch disagreed",
  "held-past": "a batch was past its limit of holding",
  "held-without-limit": "a batch was held, and the plan has no limit for that",
  "out-past": "the limit of time out of temperature was reached",
  "out-unknown": "no time out of the heat or the cold and no passing reading of holding was on record yet",
  "out-without-limit": "no limit of the plan allows that time out of temperature",
  halted: "serving was halted",
};

const reasons: Record<Of<"batch-changed">["reason"], string> = {
  recooked: "made anew",
  swapped: "another one stood ready",
  other: "another reason",
};

const unknown: Record<Of<"batch-not-recorded">["why"], string> = {
  moved: "served with another wave, which has no batch, or more than one, of a product",
  apart: "entries that were written apart name different ones, or changes follow each other in a circle",
  "other-product": "what came in the place of a batch is of another product by the key",
};

const halts: Record<Of<"serving-halted">["why"], string> = {
  person: "somebody needed attention",
  food: "because of the food",
  room: "because of the room",
  other: "for another reason",
};

const people: Record<Of<"person-noted">["state"], (wave: number | null) => string> = {
  late: (wave) => (wave === null ? "the panelist was late" : `the panelist was late and was served with wave ${wave}`),
  missing: () => "the panelist did not come",
  moved: (wave) => `the panelist was served with wave ${wave ?? ""}`,
  apart: () => "notes about the panelist disagree",
  "no-wave": (wave) => `a note says that it goes with wave ${wave ?? ""}, which the plan does not have`,
};

const papers: Record<Of<"sheet-not-returned">["paper"], string> = {
  "kitchen-by-product": "kitchen sheet by product",
  "kitchen-by-tray": "kitchen sheet by tray",
};

const kinds: Record<string, string> = {
  "core-read": "a core temperature",
  "cooking-excepted": "an exception",
  "heat-left": "when a batch left the heat or the cold",
  "holding-read": "a holding temperature",
  "serving-read": "a serving temperature",
  "batch-changed": "a change of batch",
  "tray-handled": "what was done to a tray",
  "person-noted": "a note about a panelist",
  "serving-halted": "a halt",
  "serving-resumed": "the end of a halt",
  "sheet-returned": "a sheet that came back",
};

/** "before 4 minutes after the heat" */
const side = ({ side, from, to }: Of<"served-outside-window">): string =>
  side === "past"
    ? `more than ${shortNumber(to ?? 0)} minutes after the heat`
    : `less than ${shortNumber(from ?? 0)} minutes after the heat`;

/** ", for trays 1 and 2"; nothing where there are none. */
const numbered = (before: string, trays: readonly number[]): string =>
  trays.length === 0 ? "" : `${before} ${trays.length === 1 ? "tray" : "trays"} ${firstListed(trays)}`;

export const kitchenDepartures: Sentences = {
  "core-below": (d) =>
    `${batchIs(d)}: the core ${readings(d.celsius)}, against ${degrees(shortNumber(d.limit))}. ${coreEnds[d.ended](d.by)}${noted(d.note)}`,
  "held-past": (d) =>
    `${batchIs(d)}: held ${d.held}, it ${readings(d.celsius)}, against ${degrees(shortNumber(d.limit))}. ${heldEnds[d.ended]}`,
  "not-written-down": (d) =>
    `${batchIs(d)}: nobody wrote down ${d.lacks === "core" ? "a temperature of its core" : "when it left the heat"}.`,
  "served-blocked": (d) =>
    `${trays(d.trays)}: noted as served with wave ${d.wave} while ${blocks[d.why]}, by the log as it was then.`,
  "served-outside-window": (d) =>
    `${trays(d.trays)}: noted as served with wave ${d.wave} ${side(d)}, outside of the planned window.`,
  "batch-changed": (d) =>
    `${batchIs(d)}: replaced by “${d.becomes}” (${reasons[d.reason]})${numbered(", for", d.trays)}${numbered(", not for", d.kept)}${d.kept.length > 0 ? ", served or tasted before" : ""}.${noted(d.note)}`,
  "batch-not-recorded": (d) => `${trays(d.trays)}: of some samples the batch is not recorded (${unknown[d.why]}).`,
  "person-noted": (d) => `Tray ${d.tray}: ${people[d.state](d.wave)}.${noted(d.note)}`,
  "serving-halted": (d) =>
    `Serving was halted: ${halts[d.why]}.${d.resumed ? "" : " That it went on is not recorded."}`,
  "tray-unsound": (d) => `Tray ${d.tray}: served although a check had found something wrong.${noted(d.note)}`,
  "sheet-not-returned": (d) => `The ${papers[d.paper]}, which holds the key, is not recorded as back with the lead.`,
  "exception-refused": (d) =>
    `“${d.by}” noted food below a limit of cooking as allowed. The locked plan does not let that person, so it was not used.${noted(d.note)}`,
  "entry-voided": (d) => `An entry of the kitchen was taken back: ${kinds[d.kind] ?? d.kind}.${noted(d.note)}`,
};
