import type { AskedAttribute, Attribute, Moment } from "./attribute.ts";

/**
 * Every question about a sample: each property at the moment the question is about, then at its further ones as the
 * chew goes on. Which of them count for the verdict is nothing that a tablet is told.
 */
export const askedAttributes = (attributes: readonly Attribute[]): AskedAttribute[] =>
  attributes.flatMap(({ further, inFamily: _inFamily, ...first }) => [
    first,
    ...inOrderOfMoments(further).map(({ id, moment }) => ({ ...first, id, moment })),
  ]);

/** What is asked at the first bite, then second after second (or chew after chew), last what is asked before swallowing. */
export const inOrderOfMoments = <M extends { moment: Moment }>(asked: readonly M[]): M[] =>
  asked.toSorted((one, other) => {
    const [early, late] = [rankOf(one.moment), rankOf(other.moment)];
    // two that come last are equal, not an infinity less another
    return early === late ? 0 : early - late;
  });

/** Seconds and chews never stand in one plan that is locked: nobody knows which of them comes first. */
function rankOf(moment: Moment): number {
  switch (moment.at) {
    case "first-bite":
      return 0;
    case "after":
      return moment.seconds;
    case "chews":
      return moment.chews;
    case "before-swallowing":
      return Number.POSITIVE_INFINITY;
  }
}

/** Seconds after the first bite by the clock; null where only the panelist knows when it is. */
export function secondsAt(moment: Moment): number | null {
  if (moment.at === "first-bite") return 0;
  return moment.at === "after" ? moment.seconds : null;
}

export const sameMoment = (one: Moment, other: Moment): boolean => one.at === other.at && rankOf(one) === rankOf(other);
