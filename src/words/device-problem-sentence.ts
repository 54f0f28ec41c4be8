import type { ProblemData } from "../model/problem.ts";
import { deviceProblems as en } from "./en/device-problems.ts";

/** The sentence for a problem on a tablet. One that no tablet should meet gives its code, plainly. */
export function deviceProblemSentence(problem: ProblemData, sentences: typeof en = en): string {
  if (!Object.hasOwn(sentences, problem.code)) return problem.code;
  const sentence = sentences[problem.code as keyof typeof en] as (details: ProblemData["details"]) => string;
  return sentence(problem.details);
}
