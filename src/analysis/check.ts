import { problem } from "../model/problem.ts";

/** Most answers one test may hold: what the model's `count` allows, and what the exact tails were checked to. */
export const mostJudgments = 100_000;

/** Largest risk of a false alarm that a test may run: above it a coin decides better. What the model's plan allows too. */
export const mostAlpha = 0.5;

/** Throws Problem "analysis/not-a-count" unless the value is a whole number from low to high. */
export function requireCount(name: string, value: number, low = 0, high = mostJudgments): void {
  if (Number.isInteger(value) && value >= low && value <= high) return;
  throw problem("analysis/not-a-count", { name, value: String(value), low, high });
}

/** Throws Problem "analysis/not-a-share" unless 0 <= value <= 1. */
export function requireShare(name: string, value: number): void {
  if (value >= 0 && value <= 1) return;
  throw problem("analysis/not-a-share", { name, value: String(value) });
}

/** Throws Problem "analysis/risk-out-of-range" unless 0 < alpha <= 0.5. */
export function requireAlpha(alpha: number): void {
  if (alpha > 0 && alpha <= mostAlpha) return;
  throw problem("analysis/risk-out-of-range", { name: "alpha", value: String(alpha), most: mostAlpha });
}

/** Throws Problem "analysis/not-a-share" unless 0 < value < 1: a risk or a confidence. */
export function requireRisk(name: string, value: number): void {
  if (value > 0 && value < 1) return;
  throw problem("analysis/not-a-share", { name, value: String(value) });
}

/** Throws Problem "analysis/out-of-range" unless low <= value <= high. */
export function requireNumber(name: string, value: number, low: number, high: number): void {
  if (value >= low && value <= high) return;
  throw problem("analysis/out-of-range", { name, value: String(value), low: String(low), high: String(high) });
}

/** A p-value is never 0: where a double cannot hold it, the smallest one stands for it. */
export const aboveZero = (probability: number): number => Math.max(Number.MIN_VALUE, probability);
