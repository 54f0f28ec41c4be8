import type { ProblemData } from "../model/problem.ts";
import { Problem } from "../model/problem.ts";
import { problems as en } from "./en/problems.ts";

/** The sentence for a problem, in the language at hand. Anything that is no Problem gives its message, plainly. */
export function problemSentence(problem: ProblemData, sentences: typeof en = en): string {
  const sentence = sentences[problem.code] as ((details: ProblemData["details"]) => string) | undefined;
  // a newer server may name a problem that this version does not know
  return sentence ? sentence(problem.details) : sentences["server/unknown-problem"]({ code: problem.code });
}

/** The sentence for whatever was thrown. */
export function sentenceOf(thrown: unknown): string {
  if (thrown instanceof Problem) return problemSentence(thrown.problem);
  return thrown instanceof Error ? thrown.message : String(thrown);
}
