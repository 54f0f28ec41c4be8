import { shapeOf } from "../model/method.ts";
import type { Judgment, StudyRecord } from "../model/record.ts";

/** Columns that the answers of every choice study share: who, which of their trays, where and to which question. */

/** A counted answer with what was on its tray, as the analysis marks it. */
export type OnTray = Judgment & {
  order: string;
  samples: readonly { code: string; product: string; batch: string }[];
  reference: { product: string; batch: string } | null;
};

export type Cells = Record<string, string | number>;

/** In the order of the trays, and within one in that of its questions. */
export const inOrderOfTrays = <A extends OnTray>(marked: readonly A[]): A[] =>
  marked.toSorted((one, other) => one.tray - other.tray || one.question - other.question);

/**
 * Each tray's number among the counted trays of its seat, from 1: a person's repeats, in the order of the waves. A spare
 * has a high number, and may all the same belong to the first session.
 */
export function repeatsOf(marked: readonly { seat: number; tray: number; wave: number }[]): Map<number, number> {
  const traysOf = new Map<number, Map<number, number>>();
  for (const { seat, tray, wave } of marked) traysOf.set(seat, (traysOf.get(seat) ?? new Map()).set(tray, wave));
  return new Map(
    [...traysOf.values()].flatMap((waves) =>
      [...waves].sort(([a, of], [b, ofOther]) => of - ofOther || a - b).map(([tray], at) => [tray, at + 1] as const),
    ),
  );
}

/**
 * Cells by column for the wave's session and the question, where the plan has more than one, and for whether the answer
 * stood on paper, where one did; a study without them has no such columns.
 */
export function occasionOf(
  { plan }: Pick<StudyRecord, "plan">,
  marked: readonly Pick<OnTray, "paper">[],
): (answer: OnTray) => Cells {
  const inSessions = plan.waves.some(({ session }) => session.trim() !== "");
  const several = asksSeveral({ plan });
  const onPaper = someOnPaper(marked);
  return ({ wave, question, paper }) => ({
    ...(inSessions ? { session: plan.waves[wave - 1]?.session.trim() ?? "" } : {}),
    ...(several ? { question, property: plan.properties[question - 1]?.name.trim() ?? "" } : {}),
    ...(onPaper ? { source: paper ? "paper" : "tablet" } : {}),
  });
}

const someOnPaper = (marked: readonly Pick<OnTray, "paper">[]): boolean => marked.some(({ paper }) => paper);

/** A plan may still hold properties of a method that it has left. */
const asksSeveral = ({ plan }: Pick<StudyRecord, "plan">): boolean =>
  shapeOf(plan.method).property && plan.properties.length > 1;

/** Names of those columns, in their order. */
export function occasionColumns(
  { plan }: Pick<StudyRecord, "plan">,
  marked: readonly Pick<OnTray, "paper">[],
): string[] {
  return [
    ...(plan.waves.some(({ session }) => session.trim() !== "") ? ["session"] : []),
    ...(asksSeveral({ plan }) ? ["question", "property"] : []),
    ...(someOnPaper(marked) ? ["source"] : []),
  ];
}

/** How many samples a tray has, answered or not: a file without answers has the columns of the others. */
export const samplesOf = ({ packet }: Pick<StudyRecord, "packet">): number => packet.trays[0]?.codes.length ?? 0;

/** "code_1", "code_2" …: one column for each place of the serving order. */
export const places = (stem: string, count: number): string[] =>
  Array.from({ length: count }, (_, at) => `${stem}_${at + 1}`);

/** Cells of what was in one place after the other. */
const inPlaces = (stem: string, values: readonly string[]): Cells =>
  Object.fromEntries(values.map((value, at) => [`${stem}_${at + 1}`, value]));

/** Columns of the uncoded cup; none where there is none. */
export const referenceColumns = ({ plan }: Pick<StudyRecord, "plan">): string[] =>
  shapeOf(plan.method).reference === null ? [] : ["reference_product", "reference_batch"];

/**
 * What every file of answers with its samples tells of an answer: who, which of their trays, when, and what was in each
 * cup, in serving order, the reference cup before them. A file takes the columns it has of these.
 */
export function trayCells(record: Pick<StudyRecord, "plan">, marked: readonly OnTray[]): (answer: OnTray) => Cells {
  const names = new Map(record.plan.products.map(({ id, name }) => [id, name]));
  const nameOf = (product: string): string => names.get(product) ?? product;
  const repeats = repeatsOf(marked);
  const occasion = occasionOf(record, marked);
  return (answer) => {
    const { seat, tray, wave, order, samples, reference } = answer;
    return {
      ...{ panelist: `seat-${seat}`, repeat: repeats.get(tray) ?? 1, tray, wave },
      ...occasion(answer),
      order,
      reference_product: reference ? nameOf(reference.product) : "",
      reference_batch: reference?.batch ?? "",
      ...inPlaces(
        "code",
        samples.map(({ code }) => code),
      ),
      ...inPlaces(
        "product",
        samples.map(({ product }) => nameOf(product)),
      ),
      ...inPlaces(
        "batch",
        samples.map(({ batch }) => batch),
      ),
    };
  };
}
