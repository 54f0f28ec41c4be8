import { fisherExactUpper } from "./fisher-exact.ts";

/**
 * For two groups of answers, which pairs of counts reach alpha by Fisher's exact one-sided test: for every number told in
 * the second group (the index) the least number of the first; `first + 1` where none does. It never falls along the
 * index, and it hangs on nothing but the sizes and alpha, so that a planner asks for it once.
 *
 * Exact    the same as `fisherExactUpper(...) <= alpha` everywhere: a quick sum decides where it is clear
 */
export function fisherRegion(first: number, second: number, alpha: number): Uint32Array {
  const key = `${first} ${second} ${alpha}`;
  const kept = known.get(key);
  if (kept) return kept;
  const region = new Uint32Array(second + 1);
  let needed = 0;
  for (let told = 0; told <= second; told++) {
    while (needed <= first && !reaches(needed, first, told, second, alpha)) needed += 1;
    region[told] = needed;
  }
  if (known.size >= mostKept) known.clear();
  known.set(key, region);
  return region;
}

/** All sizes that a planner's picture and look-ahead need at one alpha, and some at another. */
const mostKept = 3_000;
const known = new Map<string, Uint32Array>();

/**
 * Chance that the counts fall into the region when these are the true shares told.
 *
 * Takes    region: of `fisherRegion` for these sizes; shares: 0 to 1
 * Returns  0 to 1, absolute error below 1e-12
 */
export function regionPower(region: Uint32Array, first: number, shares: { first: number; second: number }): number {
  const tails = upperTails(first, shares.first);
  const points = pointsOf(region.length - 1, shares.second);
  let power = 0;
  for (const [told, needed] of region.entries()) power += (points[told] ?? 0) * (tails[needed] ?? 0);
  return Math.min(1, power);
}

/** Point probabilities of 0 to n, from the likeliest outwards. */
function pointsOf(n: number, share: number): Float64Array {
  const points = new Float64Array(n + 1);
  if (share === 0 || share === 1) points[share * n] = 1;
  if (share === 0 || share === 1) return points;
  const odds = share / (1 - share);
  const mode = Math.min(n, Math.floor((n + 1) * share));
  points[mode] = Math.exp(
    logFactorial(n) -
      logFactorial(mode) -
      logFactorial(n - mode) +
      mode * Math.log(share) +
      (n - mode) * Math.log1p(-share),
  );
  for (let at = mode; at < n; at++) points[at + 1] = (points[at] ?? 0) * ((n - at) / (at + 1)) * odds;
  for (let at = mode; at > 0; at--) points[at - 1] = (points[at] ?? 0) * (at / (n - at + 1) / odds);
  return points;
}

/** P(X >= k) for k = 0 to n + 1. */
function upperTails(n: number, share: number): Float64Array {
  const points = pointsOf(n, share);
  const tails = new Float64Array(n + 2);
  for (let at = n; at >= 0; at--) tails[at] = (tails[at + 1] ?? 0) + (points[at] ?? 0);
  return tails;
}

function reaches(u: number, first: number, l: number, second: number, alpha: number): boolean {
  const told = u + l;
  const far = Math.min(first, told);
  let term = Math.exp(logChoose(first, u) + logChoose(second, l) - logChoose(first + second, told));
  let sum = term;
  const over = alpha * (1 + 1e-9);
  for (let at = u; at < far && sum <= over && term > sum * 1e-12; at++) {
    term *= ((first - at) / (at + 1)) * ((told - at) / (second - told + at + 1));
    sum += term;
  }
  if (sum > over) return false;
  if (sum < alpha * (1 - 1e-9)) return true;
  return fisherExactUpper(u, first, l, second) <= alpha;
}

const logChoose = (n: number, k: number): number => logFactorial(n) - logFactorial(k) - logFactorial(n - k);

const logs: number[] = [0];
function logFactorial(n: number): number {
  for (let next = logs.length; next <= n; next++) logs.push((logs[next - 1] ?? 0) + Math.log(next));
  return logs[n] ?? 0;
}
