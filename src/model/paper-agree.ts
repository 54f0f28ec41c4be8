import type { PaperTyped } from "./paper-event.ts";

/**
 * How far two readings of one stroke may lie apart and still agree, in millimeters: two people who read a ruler to the
 * millimeter differ by one now and then (common practice, no source). The first person's reading counts.
 */
export const readingToleranceMm = 1;

type Said = Pick<PaperTyped, "clearance" | "consent" | "lineMm" | "choices" | "marks">;

/** Where two typings of one ballot differ: the ticks at its head, the length of its lines, and questions from 1. */
export type PaperDifference = { head: boolean; length: boolean; questions: number[] };

export function differenceOf(one: Said, other: Said): PaperDifference {
  const [mine, theirs] = [bySaid(one), bySaid(other)];
  const questions = [...new Set([...mine.keys(), ...theirs.keys()])]
    .filter((question) => !same(mine.get(question), theirs.get(question)))
    .sort((a, b) => a - b);
  return {
    head: one.clearance !== other.clearance || one.consent !== other.consent,
    length: !near(one.lineMm, other.lineMm),
    questions,
  };
}

/** Do two typings say the same? */
export function agree(one: Said, other: Said): boolean {
  const { head, length, questions } = differenceOf(one, other);
  return !head && !length && questions.length === 0;
}

/** One question: all that must be equal as one text, and the reading, which may be a little off. */
type Answer = { exact: string; mm: number | null };

const bySaid = ({ choices, marks }: Said): Map<number, Answer> =>
  new Map<number, Answer>([
    ...choices.map(({ question, choice, guess }) => [question, { exact: `${choice} ${guess}`, mm: null }] as const),
    ...marks.map(
      ({ question, code, attribute, mm, step, why }) =>
        [question, { exact: `${code} ${attribute} ${step} ${why}`, mm }] as const,
    ),
  ]);

const same = (one: Answer | undefined, other: Answer | undefined): boolean =>
  one !== undefined && other !== undefined && one.exact === other.exact && near(one.mm, other.mm);

const near = (one: number | null, other: number | null): boolean =>
  one === null || other === null ? one === other : Math.abs(one - other) <= readingToleranceMm;
