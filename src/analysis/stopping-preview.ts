import { plannedLooks } from "./stopping.ts";
import { type Lines, type StoppingPlan, stagesAt, stoppingRule } from "./stopping-rule.ts";
import { expectedJudgments, type Stage, sumOf, walk } from "./stopping-walk.ts";

/** What a stopping rule will ask and cost, before anybody has tasted. Shares and chances are 0 to 1. */
export type StoppingPreview = {
  rule: "looks" | "sequential";
  planned: number;
  /**
   * What each look asks: from how many right on it is a yes, up to how many a no (null: never at this look). The end of
   * the study is the last one. By Wald's lines one after every answer: the most looks there can be.
   */
  looks: Stage[];
  /** Looks only: an early look says yes where its count has this chance or less under guessing; 0: it never can. */
  level: number | null;
  /** Wald only. */
  lines: Lines | null;
  /** Chance of a yes although everybody guesses, counted out for all looks together. */
  totalAlpha: number;
  /** If what is sought is true: chance of a yes, and of an early no (0 for looks, which never say no early). */
  power: number;
  falseNo: number;
  /** Wald only in fact: chance that the answers run out with neither, under guessing and if what is sought is true. */
  undecided: { guessing: number; sought: number };
  /** Mean number of answers until it stops, in both cases. */
  expected: { guessing: number; sought: number };
  /** Share of right answers by guessing, and if what is sought is true. */
  share: { guessing: number; sought: number };
};

/**
 * The preview of a plan's stopping rule; null where it goes on until everybody has answered.
 *
 * Throws   as `stoppingRule`
 * Example  triangle, 30 people, alpha 0.05, looks at [17]: looks ask 11 of 17 and 15 of 30, totalAlpha 0.0457
 */
export function previewStopping(plan: StoppingPlan): StoppingPreview | null {
  const rule = stoppingRule(plan);
  if (!rule) return null;
  const looks = stagesAt(rule, plannedLooks(rule), true);
  const [guessing, sought] = [walk(looks, rule.guess), walk(looks, rule.sought)];
  const decided = ({ yes, no }: { yes: number[]; no: number[] }) => Math.min(1, sumOf(yes) + sumOf(no));
  const isWald = rule.rule === "sequential";
  return {
    rule: rule.rule,
    planned: rule.planned,
    looks,
    level: isWald ? null : rule.level,
    lines: isWald ? rule.lines : null,
    totalAlpha: Math.min(1, sumOf(guessing.yes)),
    power: Math.min(1, sumOf(sought.yes)),
    falseNo: Math.min(1, sumOf(sought.no)),
    undecided: isWald ? { guessing: 1 - decided(guessing), sought: 1 - decided(sought) } : { guessing: 0, sought: 0 },
    expected: {
      guessing: expectedJudgments(looks, rule.guess),
      sought: expectedJudgments(looks, rule.sought),
    },
    share: { guessing: rule.guess, sought: rule.sought },
  };
}
