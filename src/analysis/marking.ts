import { noPreferenceChoice } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import type { Judgment, KeptMark, MarkedLine, StudyRecord } from "../model/record.ts";

/** A sample as the opened key has it. */
export type Sample = { code: string; product: string; batch: string };

/** One counted answer, held against the opened key. `oddPosition` counts from 1 in serving order. */
export type Marked = Judgment & {
  order: string;
  oddPosition: number;
  correct: boolean;
  samples: readonly Sample[];
};

/** One counted preference. `place` of the preferred sample counts from 1 in serving order; null: no preference. */
export type MarkedPreference = Judgment & {
  order: string;
  picked: "first" | "second" | "none";
  place: number | null;
  samples: readonly Sample[];
};

const letters = "ABCDEFGHIJKL";

/**
 * Every counted answer of a triangle study, right or wrong by the opened key.
 *
 * Returns  one entry per judgment, in the record's order; the order label is read from the samples, not from the
 *          label that the key carries, so that the two cannot disagree
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/no-odd-sample",
 *          "analysis/code-not-on-tray": the record contradicts itself
 */
export function markedTriangles(record: StudyRecord): Marked[] {
  refuseTraysTwice(record.judgments);
  const lookUp = keyOf(record);
  return record.judgments.map((judgment) => {
    const { tray, choice } = judgment;
    const { samples, order } = lookUp(tray);
    const odd = oddPlace(order);
    if (odd === null) throw problem("analysis/no-odd-sample", { tray });
    const correct = placeOf(samples, tray, choice) === odd + 1;
    return { ...judgment, order, oddPosition: odd + 1, correct, samples };
  });
}

/**
 * Every counted answer of a paired preference, by the opened key: the first product of the plan, the second, or neither.
 *
 * Returns  one entry per judgment, in the record's order; order labels as `markedTriangles` has them
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/not-a-pair",
 *          "analysis/code-not-on-tray"
 */
export function markedPreferences(record: StudyRecord): MarkedPreference[] {
  refuseTraysTwice(record.judgments);
  const lookUp = keyOf(record);
  return record.judgments.map((judgment) => {
    const { tray, choice } = judgment;
    const { samples, order } = lookUp(tray);
    if (order !== "AB" && order !== "BA") throw problem("analysis/not-a-pair", { tray });
    if (choice === noPreferenceChoice) return { ...judgment, order, picked: "none", place: null, samples };
    const place = placeOf(samples, tray, choice);
    return { ...judgment, order, picked: order[place - 1] === "A" ? "first" : "second", place, samples };
  });
}

/**
 * Every question of the trays that have a mark, answered or not, with product, batch and place by the opened key.
 *
 * Returns  tray by tray as the key has them, sample by sample in serving order, attributes in the order of the plan
 * Throws   Problem "analysis/tray-not-in-key", "analysis/code-not-on-tray", "analysis/unknown-product" (the key names one
 *          that the plan lacks), "analysis/unknown-attribute", "analysis/mark-counted-twice"
 */
export function markedLines(record: StudyRecord): MarkedLine[] {
  const attributes = record.plan.scale.attributes.map(({ id }) => id);
  const lookUp = keyOf(record);
  const marks = new Map<string, KeptMark>();
  const trays = new Map<number, KeptMark>();
  for (const mark of record.marks) {
    const { tray, code, attribute } = mark;
    placeOf(lookUp(tray).samples, tray, code);
    if (!attributes.includes(attribute)) throw problem("analysis/unknown-attribute", { tray, code });
    const question = JSON.stringify([tray, code, attribute]);
    if (marks.has(question)) throw problem("analysis/mark-counted-twice", { tray, code });
    marks.set(question, mark);
    trays.set(tray, mark);
  }
  return [...trays.values()].flatMap(({ tray, seat, wave }) => {
    const { samples, order } = lookUp(tray);
    return samples.flatMap(({ code, product, batch }, at) => {
      if (order[at] === "?") throw problem("analysis/unknown-product", { product });
      return attributes.map((attribute): MarkedLine => {
        const mark = marks.get(JSON.stringify([tray, code, attribute])) ?? null;
        return { tray, seat, wave, code, attribute, order, place: at + 1, product, batch, mark };
      });
    });
  });
}

/**
 * One answer a person, where people are what is counted: of a seat with several trays the one with the lowest number
 * stands, whatever was answered; a spare comes after the planned tray.
 *
 * Returns  the answers that stand, in the order given, and the trays of the others
 */
export function onePerSeat<A extends { tray: number; seat: number }>(
  answers: readonly A[],
): { kept: A[]; leftOut: number[] } {
  const first = new Map<number, number>();
  for (const { tray, seat } of answers) first.set(seat, Math.min(tray, first.get(seat) ?? tray));
  const stands = ({ tray, seat }: A) => first.get(seat) === tray;
  return {
    kept: answers.filter(stands),
    leftOut: answers.filter((answer) => !stands(answer)).map(({ tray }) => tray),
  };
}

function refuseTraysTwice(judgments: readonly Judgment[]): void {
  const seen = new Set<number>();
  for (const { tray } of judgments) {
    if (seen.has(tray)) throw problem("analysis/tray-counted-twice", { tray });
    seen.add(tray);
  }
}

/** What the opened key says of a tray: its samples in serving order, and their order in the trade's letters. */
function keyOf({ plan, opened }: StudyRecord): (tray: number) => { samples: readonly Sample[]; order: string } {
  const products = plan.products.map((product) => product.id);
  const keys = new Map(opened.key.trays.map((tray) => [tray.tray, tray]));
  return (tray) => {
    const samples = keys.get(tray)?.samples;
    if (!samples) throw problem("analysis/tray-not-in-key", { tray });
    return { samples, order: samples.map(({ product }) => letters[products.indexOf(product)] ?? "?").join("") };
  };
}

/** Where a code stands in serving order, from 1. */
function placeOf(samples: readonly Sample[], tray: number, code: string): number {
  const at = samples.findIndex((sample) => sample.code === code);
  if (at < 0) throw problem("analysis/code-not-on-tray", { tray, code });
  return at + 1;
}

/** Where the odd letter of a triangle order stands, from 0; null when it is no triangle. Example: oddPlace("AAB") // 2 */
export function oddPlace(order: string): number | null {
  const [first, second, third] = order;
  if (order.length !== 3 || order.includes("?")) return null;
  if (first === second && third !== first) return 2;
  if (first === third && second !== first) return 1;
  return second === third && first !== second ? 0 : null;
}
