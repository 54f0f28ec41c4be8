import { leastForVerdict } from "../model/outcome.ts";
import type { StudyRecord } from "../model/record.ts";
import type { StoppingPath } from "../model/result-choice.ts";
import { type StoppingRule, stagesAt, stoppingRule } from "./stopping-rule.ts";
import { type Stage, sumOf, walk } from "./stopping-walk.ts";

/**
 * What a look saw: how many answers, and how many of them right. `said`: what the lead was told then, where a look is in
 * the log.
 */
export type LookCounts = { judgments: number; correct: number; said?: "go-on" | "stop" | null };
type Path = NonNullable<StoppingPath>;
export type Said = Path["looks"][number]["said"];

const saidBy = ({ upper, lower }: Stage, correct: number): Said =>
  upper !== null && correct >= upper ? "yes" : lower !== null && correct <= lower ? "no" : "go-on";

/** Does the last of the looks stand at the end of the study: everybody planned has answered? */
const isFull = (rule: StoppingRule, looks: readonly LookCounts[]): boolean =>
  (looks.at(-1)?.judgments ?? 0) >= rule.planned;

/**
 * What the rule says at a look.
 *
 * Takes    looks: the earlier ones and this one, in their order, each with all the answers of those before it
 * Returns  "yes" or "no": stop; "go-on" otherwise
 *          (a triangle with a look at 17 of 30, at alpha 0.05: "yes" from 11 right on)
 */
export function decide(rule: StoppingRule, looks: readonly LookCounts[]): Said {
  return pathOf(rule, looks, isFull(rule, looks)).at(-1)?.said ?? "go-on";
}

/** The looks up to the one that decided, or all of them. `ended`: the last one has all answers of the study. */
function pathOf(rule: StoppingRule, given: readonly LookCounts[], ended: boolean): Path["looks"] {
  const looks = distinct(given);
  const stages = stagesAt(
    rule,
    looks.map(({ judgments }) => judgments),
    ended,
  );
  const path = stages.map((stage, at) => {
    const { correct = 0, said } = looks[at] ?? {};
    // a ballot voided later must not make a look decide after which the study went on; to say less never adds to alpha
    return { ...stage, correct, said: said === "go-on" ? said : saidBy(stage, correct) };
  });
  const decided = path.findIndex(({ said }) => said !== "go-on");
  return decided === -1 ? path : path.slice(0, decided + 1);
}

/** Looks at different numbers of answers: of two at the same number, and of one without answers, the last counts. */
const distinct = (looks: readonly LookCounts[]): LookCounts[] =>
  looks.filter(({ judgments }, at) => judgments > 0 && (looks[at + 1]?.judgments ?? 0) !== judgments);

/**
 * The path of a closed study: its looks, what each of them asked and said, and the risks of the whole rule, counted out.
 *
 * Takes    looks: those that were taken; all: every counted answer of the study, its last look
 * Returns  the looks up to the one that decided, or to the end
 */
export function stoppingPath(rule: StoppingRule, looks: readonly LookCounts[], all: LookCounts): Path {
  const { path, whole } = runOf(rule, looks, all);
  const { judgments, said } = path.at(-1) ?? { judgments: 0, said: "go-on" };
  return {
    rule: rule.rule,
    looks: path,
    early: said !== "go-on" && judgments < rule.planned,
    planned: rule.planned,
    after: all.judgments - judgments,
    totalAlpha: Math.min(1, sumOf(walk(whole, rule.guess).yes)),
    beta: rule.rule === "sequential" ? Math.min(1, sumOf(walk(whole, rule.sought).no)) : null,
    soughtShare: rule.rule === "sequential" ? rule.sought : null,
  };
}

/** The looks as they went, and all of the rule's: had a stop not come, it would have gone on as planned. */
type Run = { path: Path["looks"]; whole: Stage[] };

/** How the looks went; see `stoppingPath`. */
export function runOf(rule: StoppingRule, looks: readonly LookCounts[], all: LookCounts): Run {
  const early = pathOf(rule, looks, isFull(rule, looks));
  const decided = early.at(-1);
  if (!decided || decided.said === "go-on") {
    const path = pathOf(rule, [...looks, all], true);
    return { path, whole: path };
  }
  const further = plannedLooks(rule).filter((answers) => answers > decided.judgments);
  const taken = early.map(({ judgments }) => judgments);
  return { path: early, whole: stagesAt(rule, [...taken, ...further], true) };
}

/**
 * Numbers of answers of all looks that a plan foresees, the end included: by Wald's lines after every answer, once there
 * are enough for a verdict.
 */
export const plannedLooks = (rule: StoppingRule): number[] =>
  rule.rule === "looks"
    ? [...rule.at, rule.planned]
    : Array.from({ length: rule.planned }, (_, at) => at + 1).filter(
        (n) => n >= Math.min(leastForVerdict, rule.planned),
      );

/** A study's answers up to the look that decided. */
export type Stopped<A> = { rule: StoppingRule; counted: A[]; looks: LookCounts[]; all: LookCounts };

/**
 * The answers on which the verdict of a study with a stopping rule stands.
 *
 * Takes    record: its looks say which trays each of them saw; marked: its counted answers, marked by the opened key
 * Returns  null without a stopping rule; else `counted`, the answers within the deciding look (all, where none decided),
 *          and what `stoppedChoice` needs
 * Throws   as `stoppingRule`
 */
export function untilStop<A extends { tray: number; correct: boolean }>(
  record: Pick<StudyRecord, "plan" | "looks">,
  marked: readonly A[],
): Stopped<A> | null {
  const rule = stoppingRule(record.plan);
  if (!rule) return null;
  const seen = looksSeen(record, marked);
  const looks = seen.map(({ counts }) => counts);
  const all = countsOf(marked);
  const decided = runOf(rule, looks, all).path.at(-1)?.judgments ?? 0;
  const within = seen.find(({ counts }) => counts.judgments === decided)?.answers ?? [];
  return { rule, counted: decided === all.judgments ? [...marked] : within, looks, all };
}

/** What each look of a record saw: its answers, with all that the looks before it had. */
export function looksSeen<A extends { tray: number; correct: boolean }>(
  { looks }: Pick<StudyRecord, "looks">,
  marked: readonly A[],
): { answers: A[]; counts: LookCounts }[] {
  const seen = new Set<number>();
  return looks.map(({ trays, said }) => {
    for (const tray of trays) seen.add(tray);
    const answers = marked.filter(({ tray }) => seen.has(tray));
    return { answers, counts: { ...countsOf(answers), said } };
  });
}

const countsOf = (answers: readonly { correct: boolean }[]): LookCounts => ({
  judgments: answers.length,
  correct: answers.filter(({ correct }) => correct).length,
});
