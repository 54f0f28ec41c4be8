import { Problem, type ProblemData } from "../src/model/problem.ts";

/** The problem that a call throws; anything else it does is an error of the test. */
export function problemOf(call: () => unknown): ProblemData {
  try {
    call();
  } catch (thrown) {
    if (thrown instanceof Problem) return thrown.problem;
    throw thrown;
  }
  throw new Error("no problem was thrown");
}

/** As `problemOf`, for a promise. */
export async function problemOfPromise(promise: Promise<unknown>): Promise<ProblemData> {
  const settled = await promise.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (settled instanceof Problem) return settled.problem;
  throw settled instanceof Error ? settled : new Error("no problem was thrown");
}
