import type { ChoiceResult } from "../model/result.ts";
import { aboveZero, requireCount } from "./check.ts";
import { chiSquareUpper } from "./chi-square.ts";

type SessionRow = NonNullable<ChoiceResult["sessions"]>["rows"][number];

/** More states than this are not gone through (common practice, no source: a tenth of a second). */
const mostStates = 200_000;
/** Tables this much likelier than the one at hand still count as just as likely: rounding, as R's fisher.test has it. */
const slack = 1e-7;

/**
 * Do sessions differ in their share, more than chance explains?
 *
 * Takes    of each session: how many answers, and how many of them right
 * Returns  p: how likely, given the numbers of answers and how many are right in all, is a table no likelier than this
 *          one, if one share holds in all sessions. `exact`: every table was counted; else Pearson's chi-square on one
 *          degree of freedom less than sessions stands for it. 1 where nothing can differ
 * Throws   Problem "analysis/not-a-count"
 * Source   G. H. Freeman and J. H. Halton 1951; likely tables gathered session by session, as C. R. Mehta and
 *          N. R. Patel 1983 do (from memory)
 * Example  sessionsDiffer([{ judgments: 4, correct: 3 }, { judgments: 4, correct: 1 }]) // { pValue: 34 / 70, exact: true }
 */
export function sessionsDiffer(sessions: readonly Pick<SessionRow, "judgments" | "correct">[]): {
  pValue: number;
  exact: boolean;
} {
  for (const { judgments, correct } of sessions) requireCount("correct", correct, 0, judgments);
  const answered = sessions.filter(({ judgments }) => judgments > 0);
  const right = sumOf(answered.map(({ correct }) => correct));
  const all = sumOf(answered.map(({ judgments }) => judgments));
  requireCount("judgments", all);
  if (answered.length < 2 || right === 0 || right === all) return { pValue: 1, exact: true };
  const counted = byTables(answered, right, all);
  if (counted !== null) return { pValue: Math.min(1, aboveZero(counted)), exact: true };
  const share = right / all;
  const chiSquare = sumOf(
    answered.map(({ judgments: n, correct }) => (correct - n * share) ** 2 / (n * share * (1 - share))),
  );
  return { pValue: aboveZero(chiSquareUpper(chiSquare, answered.length - 1)), exact: false };
}

/**
 * The rows of a result; null where there are fewer than two sessions.
 *
 * Takes    answers: each with its session's name, in any order; names: in the order they are shown
 */
export function sessionsOf(
  answers: readonly { session: string; correct: boolean }[],
  names: readonly string[],
): ChoiceResult["sessions"] {
  if (names.length < 2) return null;
  const rows = names.map((session) => {
    const own = answers.filter((answer) => answer.session === session);
    return { session, judgments: own.length, correct: own.filter(({ correct }) => correct).length };
  });
  return { rows, ...sessionsDiffer(rows) };
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** Tables that came to the same number right with the same weight so far, and how many of them there are. */
type State = { logWeight: number; tables: number };

/**
 * Session by session: what can have come about, by number right so far. Tables of one weight are kept together, which
 * keeps them few where sessions are alike. Null when they are too many.
 */
function byTables(
  sessions: readonly Pick<SessionRow, "judgments" | "correct">[],
  right: number,
  all: number,
): number | null {
  const logs = logFactorials(all);
  const choose = (n: number, k: number) => (logs[n] ?? 0) - (logs[k] ?? 0) - (logs[n - k] ?? 0);
  const most = choose(all, right);
  const here = sumOf(sessions.map(({ judgments, correct }) => choose(judgments, correct))) + slack;
  let states = new Map<number, Map<number, State>>([[0, new Map([[0, { logWeight: 0, tables: 1 }]])]]);
  let left = all;
  for (const { judgments } of sessions) {
    left -= judgments;
    const next = new Map<number, Map<number, State>>();
    let kept = 0;
    for (const [sum, own] of states) {
      // the rest must still be able to make up the total
      for (let k = Math.max(0, right - sum - left); k <= Math.min(judgments, right - sum); k++) {
        const target = next.get(sum + k) ?? new Map<number, State>();
        next.set(sum + k, target);
        for (const { logWeight, tables } of own.values()) kept += add(target, logWeight + choose(judgments, k), tables);
        if (kept > mostStates) return null;
      }
    }
    states = next;
  }
  let tail = 0;
  for (const { logWeight, tables } of states.get(right)?.values() ?? []) {
    if (logWeight <= here) tail += tables * Math.exp(logWeight - most);
  }
  return tail;
}

/** Returns 1 when a weight was not there yet. Weights are one where they agree to ten digits. */
function add(states: Map<number, State>, logWeight: number, tables: number): 0 | 1 {
  const key = Math.round(logWeight * 1e10);
  const known = states.get(key);
  if (known) known.tables += tables;
  else states.set(key, { logWeight, tables });
  return known ? 0 : 1;
}

function logFactorials(most: number): number[] {
  const logs = [0];
  for (let n = 1; n <= most; n++) logs.push((logs[n - 1] ?? 0) + Math.log(n));
  return logs;
}
