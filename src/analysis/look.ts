import { problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import { markedChoices } from "./marking.ts";
import { decide, looksSeen } from "./stopping.ts";
import { stoppingRule } from "./stopping-rule.ts";

/**
 * What the stopping rule says at the last look of a record: the one word that may leave the memory it is computed in.
 *
 * Takes    record: of `recordOfLook`, with the looks up to this one
 * Throws   Problem "look/not-allowed" without a rule; as `stoppingRule` and `markedChoices`
 */
export function sayAtLook(record: StudyRecord): "go-on" | "stop" {
  const rule = stoppingRule(record.plan);
  if (!rule) throw problem("look/not-allowed");
  const looks = looksSeen(record, markedChoices(record)).map(({ counts }) => counts);
  return decide(rule, looks) === "go-on" ? "go-on" : "stop";
}
