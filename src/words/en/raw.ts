import type { DrawnRaw, Raw } from "../../model/raw.ts";
import { nbsp } from "../number.ts";

/** Words of who got which process: on the plan's page, in its versions, on paper and in the report. */

const units = { pieces: ["piece", "pieces"], lots: ["lot", "lots"] } as const;
const counted = (count: number, unit: DrawnRaw["unit"]): string => `${count}${nbsp}${units[unit][count === 1 ? 0 : 1]}`;

/** "2 pieces to a batch, each divided among the products". */
const howDrawn = ({ unit, divided, perBatch }: DrawnRaw): string =>
  divided
    ? `${counted(perBatch, unit)} to a batch, ${perBatch === 1 ? "" : "each "}divided among the products`
    : `${counted(perBatch, unit)} to a batch, none divided`;

export const rawWords = {
  label: "Which raw material gets which process?",
  hint: "If somebody chooses, the pieces may differ as much as the processes.",
  options: [
    { value: "drawn", label: "The lock draws it, and the order of cooking", hint: "" },
    { value: "not-drawn", label: "It is not drawn", hint: "" },
    { value: "unknown", label: "Nothing is said of it", hint: "" },
  ] as const satisfies readonly { value: Raw["drawn"]; label: string; hint: string }[],
  unit: "What is numbered",
  units: [
    { value: "pieces", label: "Pieces", hint: "" },
    { value: "lots", label: "Lots", hint: "Boxes, deliveries, mixes." },
  ] as const,
  divided: "Each is divided: one part for every product",
  dividedHint: "Batches are then paired, and what differs between pieces drops out.",
  perBatch: (unit: DrawnRaw["unit"]) => `${unit === "pieces" ? "Pieces" : "Lots"} in one batch`,
  needs: (count: number, unit: DrawnRaw["unit"]) => `That takes ${counted(count, unit)}, numbered from 1.`,
  uneven:
    "To divide pieces, every product needs equally many new batches in each wave. Name as many for each, or leave the pieces whole.",
  said: (raw: Raw): string =>
    raw.drawn === "drawn" ? `drawn, ${howDrawn(raw)}` : raw.drawn === "not-drawn" ? "not drawn" : "nothing said",
  /** On the lock page: what the lock will do. */
  lockLine: (raw: Raw): string =>
    raw.drawn === "drawn" ? `The lock draws it, and the order of cooking: ${howDrawn(raw)}.` : "Not drawn.",
  record: {
    label: "Raw material and process",
    drawn: (raw: DrawnRaw) =>
      `Drawn at the lock: which ${units[raw.unit][1]} got which process, and the order of cooking (${howDrawn(raw)})`,
    notDrawn: "Not drawn: the raw material may differ as much as the processes",
  },
  paper: {
    how: (count: number, { unit, divided }: DrawnRaw) =>
      `Number the raw ${units[unit][1]} from 1 to ${count} before you look at the tables, in whatever order they lie.${
        divided
          ? ` Divide each in the same manner into as many parts as there are products, and call the parts a, b and so on by where they lie.`
          : ""
      } Then keep to the tables; what had to be changed is written beside it.`,
    byPiece: (unit: DrawnRaw["unit"]) => `By ${units[unit][0]}`,
    cooking: "Order of cooking",
    columns: {
      order: "order",
      piece: (unit: DrawnRaw["unit"]) => units[unit][0],
      product: "product",
      batch: "batch",
      contents: (unit: DrawnRaw["unit"]) => units[unit][1],
      done: "done at",
    },
    seed: (seed: string) => `Drawn at the lock from ${seed}, a number of its own. It tells nothing of the codes.`,
  },
};
