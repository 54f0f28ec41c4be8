import type { AskedAttribute, Moment } from "../model/attribute.ts";
import { askedAttributes } from "../model/moments.ts";
import type { KeptMark, MarkedLine, StudyRecord } from "../model/record.ts";
import { repeatsOf } from "./answer-columns.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";

const columns = [
  "panelist",
  "product",
  "repeat",
  "attribute",
  "moment",
  "value",
  "why",
  "tray",
  "wave",
  "order",
  "position",
  "code",
  "batch",
  "chewed_seconds",
  "answer_seconds",
  "line_mm",
  "pointer",
  "hidden",
];

/**
 * The marks of a closed and revealed line-scale study as CSV, one line a mark: attribute by attribute in the order of
 * the plan, then tray by tray, then product by product.
 *
 * Takes    marked: the record's marks as the analysis marks them; points: a mark in points, null for no answer
 * Returns  a text that `readScale` reads back to the values of the result. Values are points from 0 to 100 with all
 *          digits; an empty one is no answer, and `why` says why. A panelist is a seat ("seat-7"); `repeat` counts
 *          the trays of one seat
 */
export function marksCsv(
  { plan }: Pick<StudyRecord, "plan">,
  marked: readonly MarkedLine[],
  points: (mark: KeptMark | null) => number | null,
): string {
  const names = distinctNames(plan.products.map(({ name }) => name));
  const products = new Map(plan.products.map(({ id }, at) => [id, { at, name: names[at] ?? id }]));
  const attributes = attributesOf(askedAttributes(plan.scale.attributes));
  const repeats = repeatsOf(marked);
  const placeOf = ({ attribute, tray, product }: MarkedLine) =>
    [attributes.get(attribute)?.at ?? 0, tray, products.get(product)?.at ?? 0] as const;
  const rows = marked
    .toSorted((one, other) => inOrder(placeOf(one), placeOf(other)))
    .map((line): (string | number)[] => {
      const { mark, tray, seat, attribute, product } = line;
      return [
        `seat-${seat}`,
        products.get(product)?.name ?? product,
        repeats.get(tray) ?? 1,
        attributes.get(attribute)?.name ?? attribute,
        attributes.get(attribute)?.moment ?? "",
        points(mark) ?? "",
        mark ? (mark.why ?? "") : "no-answer-in-time",
        tray,
        line.wave,
        line.order,
        line.place,
        line.code,
        line.batch,
        mark?.chewedSeconds ?? "",
        mark ? mark.elapsedMs / 1000 : "",
        mark?.lengthMm ?? "",
        mark?.pointer ?? "",
        mark ? Number(mark.hidden) : "",
      ];
    });
  return writeTable(columns, rows);
}

function attributesOf(list: readonly AskedAttribute[]): Map<string, { at: number; name: string; moment: string }> {
  const moments = list.map(({ moment }) => momentCell(moment));
  const told = list.map(({ name }, at) => `${name.trim()}|${moments[at]}`);
  return new Map(
    list.map(({ id, name }, at) => {
      // the file tells attributes apart by name and moment; a pair that stands twice gets its number
      const twice = told.filter((one) => one === told[at]).length > 1;
      return [id, { at, name: twice ? `${name.trim()} (${at + 1})` : name.trim(), moment: moments[at] ?? "" }];
    }),
  );
}

function momentCell(moment: Moment): string {
  switch (moment.at) {
    case "first-bite":
      return "first bite";
    case "after":
      return `after ${moment.seconds} s`;
    case "chews":
      return `after ${moment.chews} chews`;
    case "before-swallowing":
      return "before swallowing";
  }
}

function inOrder(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((value, place) => value !== other[place]);
  return at < 0 ? 0 : (one[at] ?? 0) - (other[at] ?? 0);
}
