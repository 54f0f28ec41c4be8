import { readFileSync } from "node:fs";
import * as z from "zod/mini";
import type { BlockRow } from "../../src/analysis/block-table.ts";
import { reference } from "./reference.ts";

const number = z.number();
const optional = z.nullable(number);
const test = z.tuple([number, number, number, number]);
const set = z.object({
  products: z.array(z.string()).check(z.minLength(2)),
  products_last: test,
  panelists_last: test,
  panelistMeanSquare: number,
  residualMeanSquare: number,
  leastSquaresMeans: z.array(number),
  marks: z.array(number),
  own: z.array(z.tuple([number, number, optional, optional, optional])),
  withinMeanSquare: optional,
  contrasts: z.array(
    z.object({
      first: z.string(),
      second: z.string(),
      figures: z.tuple([number, number, number, number, number, number]),
    }),
  ),
});

const values = reference(
  "blocks-by-r",
  z.object({
    juiciness: set,
    "juiciness-with-gaps": set,
    wine: set,
    "fish-as-printed": set,
    "fish-corrected": set,
    "blocks-of-three-of-seven": set,
    "vinyl-chloride": set,
  }),
);
export type SetName = keyof typeof values;
export const setNames = Object.keys(values) as SetName[];

/** The marks of a set and what R made of them; test/reference/blocks-by-r. */
export function blockSet(name: SetName): { rows: BlockRow[]; products: string[]; byR: (typeof values)[SetName] } {
  const rows = lines.flatMap(([set, panelist = "", product = "", value]) =>
    set === name ? [{ panelist, product, value: Number(value) }] : [],
  );
  return { rows, products: values[name].products, byR: values[name] };
}

const file = new URL("../reference/blocks-by-r/data.csv", import.meta.url);
const lines = readFileSync(file, "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(","));
