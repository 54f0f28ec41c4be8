import { Problem } from "../../src/model/problem.ts";

/** The problem that a call throws, as data; fails the test when it throws none or something else. */
export function problemOf(call: () => unknown): Problem["problem"] {
  try {
    call();
  } catch (thrown) {
    if (thrown instanceof Problem) return thrown.problem;
    throw thrown;
  }
  throw new Error("nothing was thrown");
}
