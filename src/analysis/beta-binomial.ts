import { requireCount, requireShare } from "./check.ts";

/** How many of their answers each person had right (of a pair: gave to the first). `of` is at least 1. */
export type PersonCounts = { right: number; of: number };

/**
 * How people differ: each has a share of their own, from a beta distribution, and answers independently given that.
 * `overdispersion` is gamma, 0 (everybody alike) to 1 (all or nothing): a = mean (1 / gamma - 1),
 * b = (1 - mean)(1 / gamma - 1). `guess` is the chance that somebody who cannot tell is right all the same; then mean and
 * gamma are those of the share who can tell, and a person is right with guess + (1 - guess) times it. P. B. Brockhoff 2003
 * and J. Bi 2006 (cited where the formula was seen).
 */
export type BetaBinomial = { mean: number; overdispersion: number; guess: number };

/**
 * Probability that a person has exactly `right` of their answers right.
 *
 * Takes    right, of: whole, 0 <= right <= of <= 100 000; every parameter 0 to 1, ends included
 * Returns  relative error below 1e-12
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  betaBinomialPoint({ right: 0, of: 2 }, { mean: 0.3, overdispersion: 0.2, guess: 1 / 3 }) // 0.236444444444444
 */
export function betaBinomialPoint({ right, of }: PersonCounts, spread: BetaBinomial): number {
  requireCount("judgments", of);
  requireCount("correct", right, 0, of);
  for (const [name, value] of Object.entries(spread)) requireShare(name, value);
  return Math.exp(logLikelihoodOf([{ right, of }], spread.guess)(spread.mean, spread.overdispersion));
}

/**
 * Log likelihood of the people's counts as a function of mean and overdispersion.
 *
 * Returns  -Infinity where the counts cannot come about. Nothing is divided by the overdispersion and no gamma function
 *          is formed, so that 0 and 1 are as good as what lies between
 */
export function logLikelihoodOf(
  people: readonly PersonCounts[],
  guess: number,
): (mean: number, overdispersion: number) => number {
  const most = Math.max(0, ...people.map(({ of }) => of));
  const factorials = logFactorials(most);
  const alike = new Map<string, { right: number; of: number; times: number; guessed: number[] }>();
  for (const { right, of } of people) {
    const key = `${right}/${of}`;
    const known = alike.get(key);
    if (known) known.times += 1;
    else alike.set(key, { right, of, times: 1, guessed: guessedTerms(right, of, guess, factorials) });
  }
  const groups = [...alike.values()];
  return (mean, overdispersion) => {
    const logs = risingLogs(mean, overdispersion, most);
    let sum = 0;
    for (const { right, of, times, guessed } of groups) {
      // without guessing only the term in which every right answer was known is there
      const terms = guessed.map((term, known) => term + logMoment(logs, guess === 0 ? right : known, of));
      sum += times * logSum(terms);
    }
    return sum;
  };
}

/** Log of the ways and chances that `known` of the right answers were known and the others guessed, index = known. */
function guessedTerms(right: number, of: number, guess: number, factorials: number[]): number[] {
  const choose = (n: number, k: number) => (factorials[n] ?? 0) - (factorials[k] ?? 0) - (factorials[n - k] ?? 0);
  const ways = choose(of, right) + (right === of ? 0 : (of - right) * Math.log1p(-guess));
  if (guess === 0) return [ways];
  return Array.from(
    { length: right + 1 },
    (_, known) => ways + choose(right, known) + (right - known) * Math.log(guess),
  );
}

type RisingLogs = { up: number[]; down: number[]; all: number[]; mixed: number };

/**
 * Logs of the products that make the moments of a beta distribution, index = how many factors; each product over
 * 1 - gamma, which cancels, so that gamma may be 0 or 1. `mixed` is what remains of it where both kinds have factors.
 */
function risingLogs(mean: number, overdispersion: number, most: number): RisingLogs {
  const rest = 1 - overdispersion;
  const rising = (share: number) => {
    const logs = [0];
    let sum = Math.log(share);
    for (let factors = 1; factors <= most; factors++) {
      logs.push(sum);
      sum += Math.log(share * rest + overdispersion * factors);
    }
    return logs;
  };
  return { up: rising(mean), down: rising(1 - mean), all: rising(1), mixed: Math.log(rest) };
}

/** Log of the expected value of p^known (1 - p)^(of - known). */
function logMoment({ up, down, all, mixed }: RisingLogs, known: number, of: number): number {
  const other = of - known;
  return (up[known] ?? 0) + (down[other] ?? 0) - (all[of] ?? 0) + (known > 0 && other > 0 ? mixed : 0);
}

function logSum(terms: readonly number[]): number {
  const [first = Number.NEGATIVE_INFINITY] = terms;
  if (terms.length === 1) return first;
  let most = first;
  for (const term of terms) if (term > most) most = term;
  if (most === Number.NEGATIVE_INFINITY) return most;
  let sum = 0;
  for (const term of terms) sum += Math.exp(term - most);
  return most + Math.log(sum);
}

function logFactorials(most: number): number[] {
  const logs = [0];
  for (let n = 1; n <= most; n++) logs.push((logs[n - 1] ?? 0) + Math.log(n));
  return logs;
}
