import { nbsp } from "../number.ts";
import { clock, listed } from "./reader-parts.ts";

const degrees = (celsius: number | string): string => `${celsius}${nbsp}\u00b0C`.replace("-", "\u2212");

/** Temperatures and times of the kitchen's day, as the report's table has them. */
export const temperatures = {
  heading: "Temperatures and times",
  wave: "Wave",
  batch: "Batch",
  core: "Core",
  held: "Held",
  left: "Left the heat",
  /** In the column of when batches left the heat. */
  fromCold: (at: string): string => `${at}, from the cold`,
  served: "Wave served",
  none: "not recorded",
  /** "71 °C, then 76 °C" */
  readings: (celsius: readonly string[]): string => celsius.map(degrees).join(", then "),
  allowed: "allowed below its limit",
  batchOf: (product: string, batch: string): string => (batch.includes(product) ? batch : `${product}, ${batch}`),
  span: (first: string, last: string): string =>
    clock(first) === clock(last) ? clock(first) : `${clock(first)} to ${clock(last)}`,
  at: clock,
  /** Limits beside the readings, each with where it comes from. */
  against: {
    core: (limits: readonly string[]) => `Core against ${listed(limits)}.`,
    "held-hot": (limits: readonly string[]) => `Held hot against ${listed(limits)}.`,
    "held-cold": (limits: readonly string[]) => `Held cold against ${listed(limits)}.`,
  },
  limit: (celsius: number, heldSeconds: number, restMinutes: number, source: string): string =>
    [
      degrees(celsius),
      heldSeconds > 0 ? ` for ${heldSeconds}${nbsp}s` : "",
      restMinutes > 0 ? ` and ${restMinutes}${nbsp}min of rest` : "",
      source.trim() === "" ? "" : ` (${source.trim()})`,
    ].join(""),
  note: "Readings stand in the order in which they were written down; one that followed another counts in its place. Times are those of the devices or of the clock on the wall.",
  without: {
    heading: "Without trays served outside of their window",
    text: (trays: readonly number[], verdict: string, size: string): string =>
      `Without ${trays.length === 1 ? "tray" : "trays"} ${listed(trays)} it would read: ${verdict} ${size} This stands beside the result above and does not take its place.`,
  },
  /** What cups had as they went out. */
  servedAt: (celsius: readonly string[]): string => {
    const sorted = celsius.toSorted((a, b) => Number(a) - Number(b));
    const [low = "", high = ""] = [sorted[0], sorted.at(-1)];
    const span = low === high ? degrees(low) : `${low.replace("-", "\u2212")} to ${degrees(high)}`;
    return `Cups as they went out: ${span}, in ${celsius.length === 1 ? "1 reading" : `${celsius.length} readings`}`;
  },
  coresAre: (count: number): string =>
    `Cores of batches: ${count === 1 ? "1 reading" : `${count} readings`}, in the table below`,
};
