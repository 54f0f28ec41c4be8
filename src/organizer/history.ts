import { undoWords as words } from "../words/en/undo.ts";
import type { Difference } from "./differences.ts";

/** One change that can be taken back: how it was before and after, which fields it is of, and what it is called. */
export type Step<T> = { before: T; after: T; keys: string; text: string };

/**
 * The changes of this page, oldest first, and those that were taken back. `open`: the last one still grows, as while
 * somebody types into one field.
 */
export type History<T> = { past: readonly Step<T>[]; future: readonly Step<T>[]; open: boolean };

/** Far more than anybody takes back; each holds a whole plan, of which most is shared. */
export const mostSteps = 200;

export const noHistory = <T>(): History<T> => ({ past: [], future: [], open: false });

type Differ<T> = (before: T, after: T) => Difference<T>[];

/**
 * The history with one change more. Changes of the same fields in a row are one, until the history is sealed; one
 * that ends where it began is none.
 *
 * Takes    differ: in what two versions differ; said: a sentence that names the change better than its fields
 */
export function recorded<T>(history: History<T>, before: T, after: T, differ: Differ<T>, said?: string): History<T> {
  const keys = keysOf(differ(before, after));
  if (keys === "") return history;
  const last = history.past.at(-1);
  const grows = history.open && said === undefined && last?.keys === keys;
  const from = grows ? last.before : before;
  const rest = grows ? history.past.slice(0, -1) : history.past;
  const changed = differ(from, after);
  if (changed.length === 0) return { past: rest, future: [], open: false };
  const step = { before: from, after, keys, text: said === undefined ? textOf(changed) : words.said(said) };
  return { past: [...rest, step].slice(-mostSteps), future: [], open: said === undefined };
}

/** What comes next is a change of its own, even of the same field. */
export const sealed = <T>(history: History<T>): History<T> => (history.open ? { ...history, open: false } : history);

/** One step back; null where there is none. */
export function stepBack<T>({ past, future }: History<T>): { step: Step<T>; history: History<T> } | null {
  const step = past.at(-1);
  return step ? { step, history: { past: past.slice(0, -1), future: [...future, step], open: false } } : null;
}

/** One step forward again; null where nothing was taken back. */
export function stepForward<T>({ past, future }: History<T>): { step: Step<T>; history: History<T> } | null {
  const step = future.at(-1);
  return step ? { step, history: { past: [...past, step], future: future.slice(0, -1), open: false } } : null;
}

const keysOf = <T>(changed: readonly Difference<T>[]): string => changed.map(({ key }) => key).join(" ");

function textOf<T>(changed: readonly Difference<T>[]): string {
  const [first] = changed;
  return first ? words.change(first.label, first.mine, first.theirs, changed.length - 1) : "";
}
