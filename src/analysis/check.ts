import { problem } from "../model/problem.ts";

/** Most answers one test may hold: what the model's `count` allows, and what the exact tails were checked to. */
export const mostJudgments = 100_000;

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

/** Throws Problem "analysis/not-a-share" unless 0 < value < 1: a risk or a confidence. */
export function requireRisk(name: string, value: number): void {
  if (value > 0 && value < 1) return;
  throw problem("analysis/not-a-share", { name, value: String(value) });
}
