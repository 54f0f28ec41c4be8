import { shapeOf } from "../model/method.ts";
import { askedAttributes } from "../model/moments.ts";
import { problem } from "../model/problem.ts";
import { type Judgment, type KeptMark, type MarkedLine, type StudyRecord, servedKey } from "../model/record.ts";
import { isPair, kindsOf, oddPlace, rightPlaces, type TrayOrder } from "./right-answer.ts";

export { oddPlace };

const letters = "ABCDEFGHIJKL";

/** A sample as the opened key has it. */
export type Sample = { code: string; product: string; batch: string };

/** What was on a tray. `order`: the label in the trade's letters, "A:BA" where a reference cup came first. */
export type OnTray = { order: string; samples: readonly Sample[]; reference: Omit<Sample, "code"> | null };

/** One counted answer, held against the opened key. `oddPosition`: place of the right sample, from 1 in serving order. */
export type Marked = Judgment & OnTray & { oddPosition: number; correct: boolean };

/** One counted answer to a pair in which nobody is right. `place` of the picked sample counts from 1; null: neither. */
export type MarkedPair = Judgment & OnTray & { picked: "first" | "second" | "none"; place: number | null };

/** One counted order. `ranked`: ids of the products, least first. */
export type MarkedOrder = Judgment & OnTray & { ranked: string[] };

/** One counted answer of a method with two kinds of trays; see the model's `kindsStatistics`. */
export type MarkedKind = Judgment & OnTray & { unlike: boolean; told: boolean };

/**
 * Every counted answer to one question of a choice study, right or wrong by the opened key.
 *
 * Takes    question: from 1, in the order of the plan's properties; 1 where one thing is asked
 * Returns  one entry per judgment, in the record's order; the order label is read from the samples, not from the label
 *          that the key carries, so that the two cannot disagree
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/not-its-order" (the tray does not
 *          hold what the method serves), "analysis/code-not-on-tray", "analysis/answer-unknown": the record contradicts
 *          itself; "analysis/method-not-yet" for a method in which nothing is right
 */
export function markedChoices(record: StudyRecord, question = 1): Marked[] {
  const { plan } = record;
  const rightPlace = rightPlaces[plan.method];
  if (!rightPlace) throw problem("analysis/method-not-yet", { method: plan.method });
  const expected = letterOf(record, plan.properties[question - 1]?.expected);
  const partner = shapeOf(plan.method).answer === "partner";
  const lookUp = keyOf(record);
  return answersTo(record, question).map((judgment) => {
    const { tray, choice } = judgment;
    const { letters, ...onTray } = lookUp(tray);
    const right = rightPlace({ ...letters, expected });
    if (right === null) throw problem("analysis/not-its-order", { tray, order: onTray.order });
    const place = placeOf(onTray.samples, tray, choice);
    // nothing goes with itself
    if (partner && place === 1) throw problem("analysis/answer-unknown", { tray, answer: choice });
    return { ...judgment, ...onTray, oddPosition: right, correct: place === right };
  });
}

/**
 * Every counted answer to one question about two products of which neither is right: the first product of the plan, the
 * second, or neither. Takes, returns and throws as `markedChoices`.
 */
export function markedPairs(record: StudyRecord, question = 1): MarkedPair[] {
  const lookUp = keyOf(record);
  return answersTo(record, question).map((judgment) => {
    const { tray, choice } = judgment;
    const { letters, ...onTray } = lookUp(tray);
    if (!isPair(letters.letters)) throw problem("analysis/not-its-order", { tray, order: onTray.order });
    if (choice === "none") return { ...judgment, ...onTray, picked: "none", place: null };
    const place = placeOf(onTray.samples, tray, choice);
    return { ...judgment, ...onTray, picked: letters.letters[place - 1] === "A" ? "first" : "second", place };
  });
}

/** Every counted answer of same-different or A-not-A. Returns and throws as `markedChoices`. */
export function markedKinds(record: StudyRecord): MarkedKind[] {
  const { method } = record.plan;
  const kinds = kindsOf[method];
  if (!kinds) throw problem("analysis/method-not-yet", { method });
  const lookUp = keyOf(record);
  return answersTo(record, 1).map((judgment) => {
    const { tray, choice } = judgment;
    const { letters, ...onTray } = lookUp(tray);
    const unlike = kinds.unlike({ ...letters, expected: null });
    if (unlike === null) throw problem("analysis/not-its-order", { tray, order: onTray.order });
    if (choice !== kinds.told && choice !== kinds.not)
      throw problem("analysis/answer-unknown", { tray, answer: choice });
    return { ...judgment, ...onTray, unlike, told: choice === kinds.told };
  });
}

/**
 * Every counted order of a ranking: products by their ids, least first. Returns one entry per judgment, in the record's
 * order. Throws as `markedChoices`, and Problem "analysis/unknown-product" (the key names one that the plan lacks).
 */
export function markedOrders(record: StudyRecord): MarkedOrder[] {
  const lookUp = keyOf(record);
  const products = record.plan.products.map(({ id }) => id).sort();
  return answersTo(record, 1).map((judgment) => {
    const { tray, choice } = judgment;
    const { letters: _letters, ...onTray } = lookUp(tray);
    const served = onTray.samples.map(({ product }) => product);
    const unknown = served.find((product) => !products.includes(product));
    if (unknown !== undefined) throw problem("analysis/unknown-product", { product: unknown });
    if (served.toSorted().join() !== products.join()) {
      throw problem("analysis/not-its-order", { tray, order: onTray.order });
    }
    const ranked = choice.split(" ").map((code) => served[placeOf(onTray.samples, tray, code) - 1] ?? "");
    if (ranked.toSorted().join() !== products.join())
      throw problem("analysis/answer-unknown", { tray, answer: choice });
    return { ...judgment, ...onTray, ranked };
  });
}

/** Orders of the planned trays and of the counted ones, read from the samples, in the order of their letters. */
export function ordersServed(record: StudyRecord, counted: readonly { order: string }[]): string[] {
  const spares = new Set(record.packet.trays.filter(({ spare }) => spare).map(({ tray }) => tray));
  const lookUp = keyOf(record);
  const planned = record.opened.key.trays.filter(({ tray }) => !spares.has(tray)).map(({ tray }) => lookUp(tray).order);
  return [...new Set([...planned, ...counted.map(({ order }) => order)])].sort();
}

/** Names of the sessions planned, in their order, and of the one that a counted answer belongs to. */
export function plannedSessions({ plan }: StudyRecord): { names: string[]; of: (answer: { wave: number }) => string } {
  // spaces around a name make no other session: the seats go by the same rule
  const sessions = plan.waves.map(({ session }) => session.trim());
  return { names: [...new Set(sessions)], of: ({ wave }) => sessions[wave - 1] ?? "" };
}

/** Everything that was eaten from the trays of these answers, for what is said of batches. */
export const servedOn = (marked: readonly (OnTray & { tray: number })[]) =>
  marked.map(({ tray, samples, reference }) => ({ tray, samples: reference ? [reference, ...samples] : samples }));

/**
 * Every question of the trays that have a mark, answered or not, with product, batch and place by the opened key.
 *
 * Returns  tray by tray as the key has them, sample by sample in serving order, attributes in the order of the plan, each at all its moments
 * Throws   Problem "analysis/tray-not-in-key", "analysis/code-not-on-tray", "analysis/unknown-product" (the key names one
 *          that the plan lacks), "analysis/unknown-attribute", "analysis/mark-counted-twice"
 */
export function markedLines(record: StudyRecord): MarkedLine[] {
  const attributes = askedAttributes(record.plan.scale.attributes).map(({ id }) => id);
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

/** The counted answers to one question; each tray has one at most. */
function answersTo({ judgments }: StudyRecord, question: number): Judgment[] {
  const seen = new Set<number>();
  const answers = judgments.filter((judgment) => judgment.question === question);
  for (const { tray } of answers) {
    if (seen.has(tray)) throw problem("analysis/tray-counted-twice", { tray });
    seen.add(tray);
  }
  return answers;
}

/** A product of the plan in the trade's letters; "?" when the plan does not have it, null when none is named. */
function letterOf({ plan }: StudyRecord, product: string | null | undefined): string | null {
  if (product == null) return null;
  return letters[plan.products.findIndex(({ id }) => id === product)] ?? "?";
}

/** What the opened key says of a tray. */
function keyOf(record: StudyRecord): (tray: number) => OnTray & { letters: Omit<TrayOrder, "expected"> } {
  const keys = new Map(servedKey(record).map((tray) => [tray.tray, tray]));
  const letter = (product: string) => letterOf(record, product) ?? "?";
  return (tray) => {
    const found = keys.get(tray);
    if (!found) throw problem("analysis/tray-not-in-key", { tray });
    const served = found.samples.map(({ product }) => letter(product)).join("");
    const reference = found.reference ? letter(found.reference.product) : null;
    return {
      order: reference === null ? served : `${reference}:${served}`,
      samples: found.samples,
      reference: found.reference ?? null,
      letters: { letters: served, reference },
    };
  };
}

/** Where a code stands in serving order, from 1. */
function placeOf(samples: readonly Sample[], tray: number, code: string): number {
  const at = samples.findIndex((sample) => sample.code === code);
  if (at < 0) throw problem("analysis/code-not-on-tray", { tray, code });
  return at + 1;
}
