import type { AskedAttribute, Moment, ScaleForm } from "../model/attribute.ts";
import { askedAttributes } from "../model/moments.ts";
import type { KeptMark, MarkedLine, StudyRecord } from "../model/record.ts";
import { repeatsOf } from "./answer-columns.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";
import { scaleCell } from "./scale-forms.ts";

/** `scale` and `label` are there where some attribute has steps. */
const columns = [
  "panelist",
  "product",
  "repeat",
  "attribute",
  "moment",
  "scale",
  "value",
  "label",
  "why",
  "tray",
  "wave",
  "session",
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
 * Takes    marked: the record's marks as the analysis marks them; value: of a mark on its scale, null for no answer
 * Returns  a text that `readScale` reads back to the values of the result. Values of a line are points from 0 to 100 with
 *          all digits, those of steps their numbers from 1; an empty one is no answer, and `why` says why. A panelist is a seat ("seat-7"); `repeat` counts
 *          the trays of one seat
 */
export function marksCsv(
  { plan }: Pick<StudyRecord, "plan">,
  marked: readonly MarkedLine[],
  value: (mark: KeptMark | null, form: ScaleForm) => number | null,
): string {
  const names = distinctNames(plan.products.map(({ name }) => name));
  const products = new Map(plan.products.map(({ id }, at) => [id, { at, name: names[at] ?? id }]));
  const asked = askedAttributes(plan.scale.attributes);
  const attributes = attributesOf(asked);
  const session = sessionCell(plan);
  const left = [
    ...(asked.some(({ form }) => form.kind !== "line") ? [] : ["scale", "label"]),
    ...(session ? [] : ["session"]),
  ];
  const shown = columns.filter((column) => !left.includes(column));
  const repeats = repeatsOf(marked);
  const placeOf = ({ attribute, tray, product }: MarkedLine) =>
    [attributes.get(attribute)?.at ?? 0, tray, products.get(product)?.at ?? 0] as const;
  const rows = marked
    .toSorted((one, other) => inOrder(placeOf(one), placeOf(other)))
    .map((line): (string | number)[] => {
      const { mark, tray, seat, attribute, product } = line;
      const form = attributes.get(attribute)?.form ?? { kind: "line" };
      const given = value(mark, form);
      const cells: Record<string, string | number> = {
        panelist: `seat-${seat}`,
        product: products.get(product)?.name ?? product,
        repeat: repeats.get(tray) ?? 1,
        attribute: attributes.get(attribute)?.name ?? attribute,
        moment: attributes.get(attribute)?.moment ?? "",
        scale: scaleCell(form),
        value: given ?? "",
        label: given === null || form.kind === "line" ? "" : (form.labels[given - 1] ?? ""),
        why: mark ? (mark.why ?? "") : "no-answer-in-time",
        tray,
        wave: line.wave,
        session: session?.(line.wave) ?? "",
        order: line.order,
        position: line.place,
        code: line.code,
        batch: line.batch,
        chewed_seconds: mark?.chewedSeconds ?? "",
        answer_seconds: mark && mark.elapsedMs !== null ? mark.elapsedMs / 1000 : "",
        line_mm: mark?.lengthMm ?? "",
        pointer: mark?.pointer ?? "",
        hidden: mark ? Number(mark.hidden) : "",
      };
      return shown.map((column) => cells[column] ?? "");
    });
  return writeTable(shown, rows);
}

/** The session of a wave, where the plan has several (else null); one without a name goes by its number. */
function sessionCell({ waves }: StudyRecord["plan"]): ((wave: number) => string) | null {
  const names = [...new Set(waves.map(({ session }) => session.trim()))];
  if (names.length < 2) return null;
  return (wave) => {
    const name = waves[wave - 1]?.session.trim() ?? "";
    return name || String(names.indexOf(name) + 1);
  };
}

type Told = { at: number; name: string; moment: string; form: ScaleForm };

function attributesOf(list: readonly AskedAttribute[]): Map<string, Told> {
  const moments = list.map(({ moment }) => momentCell(moment));
  const told = list.map(({ name }, at) => `${name.trim()}|${moments[at]}`);
  return new Map(
    list.map(({ id, name, form }, at) => {
      // the file tells attributes apart by name and moment; a pair that stands twice gets its number
      const twice = told.filter((one) => one === told[at]).length > 1;
      return [id, { at, name: twice ? `${name.trim()} (${at + 1})` : name.trim(), moment: moments[at] ?? "", form }];
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
