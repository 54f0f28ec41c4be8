import type { ProblemData } from "../model/problem.ts";

/** Does the problem mean that the server does not know this device any more? It was withdrawn, or the server is new. */
export const mustEnrollAgain = (problem: ProblemData | null): boolean =>
  problem?.code === "access/not-enrolled" || problem?.code === "access/not-allowed";
