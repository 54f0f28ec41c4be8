import { Problem, type ProblemData, problem } from "../model/problem.ts";

/** Whatever was thrown while keeping something, as a problem a person can read. */
export function asProblem(thrown: unknown): ProblemData {
  return thrown instanceof Problem
    ? thrown.problem
    : problem("device/not-saved", { reason: messageOf(thrown) }).problem;
}

/** Whatever was thrown while opening the storage: without it no tray can be opened. */
export function asStorageProblem(thrown: unknown): ProblemData {
  return thrown instanceof Problem
    ? thrown.problem
    : problem("device/no-storage", { reason: messageOf(thrown) }).problem;
}

export const messageOf = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));
