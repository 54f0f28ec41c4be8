import { unbiasedShares } from "../analysis/kinds-model.ts";
import { choiceMethod, familyOf } from "../analysis/method.ts";
import { normalQuantile } from "../analysis/normal.ts";
import { kindsOf, rightPlaces } from "../analysis/right-answer.ts";
import { linePoints } from "../analysis/steps.ts";
import type { ScaleForm } from "../model/attribute.ts";
import type { Key } from "../model/key.ts";
import { asKinds, shapeOf } from "../model/method.ts";
import { askedAttributes } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { Judgment, KeptMark } from "../model/record.ts";
import { placeOfStep } from "../model/steps.ts";
import { partsOf } from "./method.ts";
import type { Uniform } from "./random.ts";
import { sideShare } from "./size-test.ts";

/**
 * What is true in an invented world. `effect` is in the unit of the plan's test: the share who can tell, the lead of the
 * first product over the second, or d-prime; of a ranking d-prime between the least product and the most, the others
 * evenly between; of a line scale points between the first product and the last, the others halfway. `deviation`: line
 * scale only, the spread of one mark in points, which is also how much people differ in where they mark.
 */
export type World = { effect: number; deviation: number };

/** One planned tray with the person who gets it; the trays of one person are those of one seat. */
export type SeatedTray = { seat: number; wave: number; tray: Key["trays"][number] };

/** The device that invented answers name: none that a server could have enrolled. */
const nowhere = "00000000-0000-4000-8000-000000000000";
const letters = "ABCDEFGHIJKL";

type Answer = Pick<Judgment, "choice" | "guess">;
/** Answers one question, counted from 0, of a tray. */
type Answerer = (tray: SeatedTray, question: number) => Answer;

/**
 * The answers of an invented panel to every question of a choice test or a ranking.
 *
 * Takes    trays: in the order of serving; random: where their luck comes from
 * Returns  one judgment for each tray and question. Where a share who can tell is true, whoever can tell tells on every
 *          tray; where the plan names a d-prime, everybody has the same chance on every tray. Asked for a preference,
 *          everybody has one
 * Throws   RangeError for a line scale, which has marks: see `inventedMarks`; Problem "analysis/method-not-yet" for
 *          portions, which nobody can chew for a rehearsal
 */
export function inventedChoices(plan: Plan, world: World, trays: readonly SeatedTray[], random: Uniform): Judgment[] {
  const answer = answererOf(plan, world, random);
  const questions = shapeOf(plan.method).property ? plan.properties.length : 1;
  return trays.flatMap((each) =>
    Array.from({ length: questions }, (_, at) => ({ ...placeOf(each), question: at + 1, ...answer(each, at) })),
  );
}

const placeOf = ({ tray, seat, wave }: SeatedTray) => ({ tray: tray.tray, seat, wave, device: nowhere, paper: false });

function answererOf(plan: Plan, world: World, random: Uniform): Answerer {
  switch (familyOf(plan.method, plan.sides)) {
    case "choice":
      return chooser(plan, world, random);
    case "pair":
      return picker(world, random);
    case "kinds":
      return caller(plan, world, random);
    case "rank":
      return ranker(plan, world, random);
    case "scale":
      throw new RangeError("marks of a scale are no choices");
    case "portions":
      throw problem("analysis/method-not-yet", { method: plan.method });
  }
}

/** Somebody is right: whoever can tell is, and everybody else guesses. */
function chooser(plan: Plan, { effect }: World, random: Uniform): Answerer {
  const { choices } = choiceMethod(plan.method);
  const rightPlace = rightPlaces[plan.method];
  const partner = shapeOf(plan.method).answer === "partner";
  const tells = tellersOf(plan, effect, random);
  return ({ tray, seat }, question) => {
    const { reference, samples } = partsOf(tray.order);
    const expected = letterOf(plan, plan.properties[question]?.expected);
    const right = rightPlace?.({ letters: samples, reference, expected }) ?? 1;
    // of a tetrad the first sample cannot be its own partner
    const places = Array.from(samples, (_, at) => at + 1).filter(
      (place) => place !== right && !(partner && place === 1),
    );
    const told = tells(seat);
    const place = told || random.below(choices) === 0 ? right : (places[random.below(places.length)] ?? right);
    return { choice: codeAt(tray, place), guess: shapeOf(plan.method).guess && !told && random.below(2) === 0 };
  };
}

/** A share who can tell is one of people, drawn once each; behind a distance everybody has the same chance each time. */
function tellersOf(plan: Plan, share: number, random: Uniform): (seat: number) => boolean {
  const named = plan.goal === "similarity" ? plan.similarity.dPrime : plan.dPrimeSought;
  if (named !== null) return () => happens(share, random);
  const people = new Map<number, boolean>();
  return (seat) => {
    const known = people.get(seat) ?? happens(share, random);
    people.set(seat, known);
    return known;
  };
}

/** Nobody is right: the first product of the plan leads. */
function picker({ effect }: World, random: Uniform): Answerer {
  return ({ tray }) => {
    const wanted = happens(sideShare(effect), random) ? "A" : "B";
    return { choice: codeAt(tray, tray.order.indexOf(wanted) + 1), guess: false };
  };
}

/** Two kinds of trays and two words, by people who lean to neither. */
function caller(plan: Plan, { effect }: World, random: Uniform): Answerer {
  const method = asKinds(plan.method);
  const kinds = kindsOf[method];
  const shares = unbiasedShares(method, effect);
  return ({ tray }) => {
    const { reference, samples } = partsOf(tray.order);
    const unlike = kinds?.unlike({ letters: samples, reference, expected: null }) ?? false;
    const told = happens(unlike ? shares.unlike : shares.like, random);
    return { choice: (told ? kinds?.told : kinds?.not) ?? "same", guess: false };
  };
}

/** Each sample is perceived with noise of one unit, and put in order by that. */
function ranker(plan: Plan, { effect }: World, random: Uniform): Answerer {
  const { predicted } = plan.ranking;
  const order = predicted.length > 0 ? predicted : plan.products.map(({ id }) => id);
  const middle = new Map(order.map((id, at) => [id, (effect * at) / Math.max(1, order.length - 1)]));
  return ({ tray }) => {
    const perceived = tray.samples.map(({ code, product }) => ({
      code,
      at: (middle.get(product) ?? 0) + deviate(random),
    }));
    const ordered = perceived.toSorted((one, other) => one.at - other.at);
    return { choice: ordered.map(({ code }) => code).join(" "), guess: false };
  };
}

/**
 * The marks of an invented panel on every question about every sample of a line scale. The world's effect is in each
 * attribute; people differ in where they mark, the noise of each mark is its own, and no mark leaves the line.
 */
export function inventedMarks(plan: Plan, world: World, trays: readonly SeatedTray[], random: Uniform): KeptMark[] {
  const { effect, deviation } = world;
  const last = plan.products.length - 1;
  const shifts = new Map(
    plan.products.map(({ id }, at) => [id, at === 0 ? -effect / 2 : at === last ? effect / 2 : 0] as const),
  );
  const attributes = askedAttributes(plan.scale.attributes);
  const people = new Map<string, number>();
  const leaning = (seat: number, attribute: string): number => {
    const key = `${seat} ${attribute}`;
    const known = people.get(key) ?? deviation * deviate(random);
    people.set(key, known);
    return known;
  };
  const lengthMm = plan.scale.lengthMm;
  return trays.flatMap((each) =>
    each.tray.samples.flatMap(({ code, product }) =>
      attributes.map(({ id, form }) => {
        const points =
          linePoints / 2 + leaning(each.seat, id) + (shifts.get(product) ?? 0) + deviation * deviate(random);
        return {
          ...placeOf(each),
          code,
          attribute: id,
          fraction: placeOn(form, points / linePoints),
          why: null,
          lengthMm,
          lengthPx: lengthMm,
          pointer: "touch",
          chewedSeconds: null,
          hidden: false,
          elapsedMs: 0,
        };
      }),
    ),
  );
}

/** A place on a scale: within its ends, and of steps the nearest one. */
function placeOn(form: ScaleForm, place: number): number {
  const within = Math.min(1, Math.max(0, place));
  if (form.kind === "line") return within;
  const steps = form.labels.length;
  return placeOfStep(Math.round(within * (steps - 1)) + 1, steps);
}

const codeAt = ({ samples }: Key["trays"][number], place: number): string => samples[place - 1]?.code ?? "";

function letterOf({ products }: Plan, product: string | null | undefined): string | null {
  return product == null ? null : (letters[products.findIndex(({ id }) => id === product)] ?? "?");
}

const fineness = 2 ** 32;

/** Does something of this probability come to pass? To one part in 2^32. */
const happens = (probability: number, random: Uniform): boolean => random.below(fineness) < probability * fineness;

/** A draw of the standard normal, through its quantile; never infinite. */
const deviate = (random: Uniform): number => normalQuantile((random.below(fineness) + 0.5) / fineness);
