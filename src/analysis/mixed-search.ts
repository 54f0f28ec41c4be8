import type { MixedDesign } from "./mixed-design.ts";
import { type MixedState, mixedSlopes, mixedState, profiledDeviance } from "./mixed-deviance.ts";
import { symmetricEigen } from "./symmetric-eigen.ts";

/** Below this place a spread is not seen; above the other the residual is lost in rounding beside it. */
const [floor, ceiling] = [1e-7, 25];
const longestStep = 4;
/** A line that bends less than this is taken to bend as much: the slopes hold about eleven digits. */
const flattest = 1e-6;

/**
 * Ratios of random to residual deviation at which the restricted likelihood is highest.
 *
 * Returns  one for each random term, 0 where the likelihood falls from 0 on: that spread is not seen
 * Exact    to about 1e-9 of a ratio: Newton's steps on exact slopes. They are taken in log(1 + rows of a level x ratio squared),
 *          in which the deviance of a balanced table with one random term is convex, and whose 0 is a ratio of 0
 */
export function bestRatios(design: MixedDesign): number[] {
  const terms = design.random.map((_, term) => term);
  const from = (ratio: number) =>
    descended(
      design,
      terms.map((term) => placeOf(design, term, ratio)),
      terms,
    );
  const first = from(1);
  const seen = (places: readonly number[]) => terms.filter((term) => (places[term] ?? 0) > floor);
  if (seen(first).length === terms.length) return ratiosAt(design, first);
  // few marks can have two valleys, one of them at 0
  const found = [0.05, 5].map(from).reduce((best, next) => {
    const gained = looked(design, best).deviance - looked(design, next).deviance;
    return gained > 1e-7 ? next : best;
  }, first);
  // once more with what is not seen at 0 itself
  const kept = seen(found);
  const zeroed = found.map((place, term) => (kept.includes(term) ? place : 0));
  return ratiosAt(design, descended(design, zeroed, kept));
}

const placeOf = (design: MixedDesign, term: number, ratio: number): number =>
  Math.log1p((design.mostRows[term] ?? 1) * ratio ** 2);
const ratiosAt = (design: MixedDesign, places: readonly number[]): number[] =>
  places.map((place, term) => Math.sqrt(Math.expm1(place) / (design.mostRows[term] ?? 1)));

/** Newton's steps in the free terms between floor and ceiling, each halved until it does not climb. */
function descended(design: MixedDesign, from: readonly number[], free: readonly number[]): number[] {
  let places = [...from];
  let here = looked(design, places);
  for (let round = 0; round < 60 && here.state; round++) {
    const slopes = slopesAt(design, here.state);
    const moving = free.filter((term) => {
      const [place, slope] = [places[term] ?? 0, slopes[term] ?? 0];
      return !(place <= floor && slope > 0) && !(place >= ceiling && slope < 0);
    });
    if (moving.length === 0) break;
    const step = newtonStep(design, places, slopes, moving);
    const moved = (share: number) =>
      places.map((place, term) => {
        const by = step[moving.indexOf(term)];
        return by === undefined ? place : Math.min(ceiling, Math.max(floor, place - share * by));
      });
    let share = 1;
    let next = looked(design, moved(share));
    while (share > 1e-4 && !(next.deviance <= here.deviance + 1e-9)) {
      share /= 2;
      next = looked(design, moved(share));
    }
    if (share <= 1e-4) break;
    const way = Math.max(...moved(share).map((place, term) => Math.abs(place - (places[term] ?? 0))));
    places = moved(share);
    here = next;
    // the step was taken, and what it leaves is far smaller
    if (way < 1e-6) break;
  }
  return places;
}

function looked(design: MixedDesign, places: readonly number[]): { state: MixedState | null; deviance: number } {
  const state = mixedState(design, ratiosAt(design, places));
  return { state, deviance: profiledDeviance(design, state) };
}

/** Slopes of the profiled deviance in the places. */
function slopesAt(design: MixedDesign, state: MixedState): number[] {
  const { logDeterminant, squares } = mixedSlopes(design, state);
  const spread = state.squares / (design.rows - design.columns.length);
  return state.ratios.map((ratio, term) => {
    const slope = (logDeterminant[term] ?? 0) + (squares[term] ?? 0) / spread;
    const rows = design.mostRows[term] ?? 1;
    return ratio === 0 ? 0 : (slope * (1 + rows * ratio ** 2)) / (2 * rows * ratio);
  });
}

/** To be taken off the places of the moving terms; along a line that bends downward it goes down as far as up. */
function newtonStep(design: MixedDesign, places: number[], slopes: number[], moving: number[]): number[] {
  const own = moving.map((term) => slopes[term] ?? 0);
  const tiny = 1e-5;
  const turns = moving.map((term) => {
    const { state } = looked(
      design,
      places.map((place, i) => (i === term ? place + tiny : place)),
    );
    const there = state ? slopesAt(design, state) : slopes;
    return moving.map((other) => ((there[other] ?? 0) - (slopes[other] ?? 0)) / tiny);
  });
  const table = turns.map((row, i) => row.map((bend, j) => (bend + (turns[j]?.[i] ?? 0)) / 2));
  const step = own.map(() => 0);
  for (const { value, vector } of symmetricEigen(table)) {
    const along = vector.reduce((sum, x, i) => sum + x * (own[i] ?? 0), 0);
    for (const [i, x] of vector.entries()) step[i] = (step[i] ?? 0) + (along * x) / Math.max(Math.abs(value), flattest);
  }
  const longest = Math.max(...step.map(Math.abs));
  return longest > longestStep ? step.map((by) => (by * longestStep) / longest) : step;
}
