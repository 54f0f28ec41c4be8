import type { MeasureKind, TypedFinding } from "../model/claim.ts";
import type { Ledger } from "../model/ledger.ts";
import { shapeOf } from "../model/method.ts";
import { askedAttributes } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { ledgerResult } from "./ledger.ts";
import { refusalsOf } from "./ledger-check.ts";
import { familyOf } from "./method.ts";

/**
 * What a study says about one measurable thing of a claim, second product against first.
 *
 * higher, lower, differs: shown by the test that was locked. not-shown: never "the same". alike: within the limit of a
 * plan whose goal was likeness; likeness-not-shown: not within it, or nobody knows. no-verdict: numbers at most.
 */
export type Found = "higher" | "lower" | "differs" | "not-shown" | "alike" | "likeness-not-shown" | "no-verdict";

/**
 * Why there is no verdict. exploratory: asked beside the family that was locked; not-compared: the plan does not judge
 * these two, or this effect; no-test: the analysis of it has none; no-interval: typed without one; other-kind: the study
 * does not measure such a thing.
 */
export type NoVerdict =
  | "too-few"
  | "withheld"
  | "far-below-chance"
  | "exploratory"
  | "not-compared"
  | "no-test"
  | "no-interval"
  | "other-kind";

/** Bounds null: there are none. */
export type Bounded = { estimate: number | null; low: number | null; high: number | null; confidence: number };
export type FindingNumbers =
  /** Second less first; null confidence: typed. */
  | ({ what: "points" | "rank-sum" } & Bounded)
  | { what: "typed"; finding: TypedFinding }
  /** From batches weighed here, in percentage points of the raw mass. */
  | ({
      what: "weighed";
      steps: readonly [string, string];
      batches: readonly [number, number];
      design: "independent" | "paired";
    } & Bounded)
  /** Of `of` answers so many picked `product`; `share` is of those. */
  | { what: "picked"; product: string; picked: number; of: number; chance: number; share: Bounded }
  /** Right answers, where there is no direction. */
  | { what: "right"; right: number; of: number; chance: number }
  | { what: "told"; unlike: { told: number; of: number }; like: { told: number; of: number } };

export type Finding = {
  found: Found;
  why: NoVerdict | null;
  numbers: FindingNumbers | null;
  /** Both ends of second less first, with the smallest difference that matters in the same unit; null: not known. */
  reach: { low: number; high: number; matters: number } | null;
  /** The locked limit of likeness, as a share who can tell; null for other goals. */
  limit: number | null;
};

export const noVerdict = (why: NoVerdict, numbers: FindingNumbers | null = null): Finding => ({
  ...{ found: "no-verdict", why, numbers, reach: null, limit: null },
});

/**
 * A finding that was typed by hand: shown where its interval leaves 0 out. Without both ends it is a number that shows
 * nothing either way.
 */
export function typedFindingOf(finding: TypedFinding): Finding {
  const { low, high, matters } = finding;
  const numbers: FindingNumbers = { what: "typed", finding };
  if (low === null || high === null || low > high) return noVerdict("no-interval", numbers);
  const found = low > 0 ? "higher" : high < 0 ? "lower" : "not-shown";
  return { found, why: null, numbers, reach: matters === null ? null : { low, high, matters }, limit: null };
}

/**
 * What a weighing ledger of two processes shows of the loss since the raw mass, at the last step that both were weighed
 * at; null where there is none yet, or where something in it cannot be.
 */
export function weighedFindingOf(ledger: Ledger): Finding | null {
  const before = weighedFindings.get(ledger);
  if (before !== undefined) return before;
  const finding = findingOfLedger(ledger);
  weighedFindings.set(ledger, finding);
  return finding;
}

/** Found once for each ledger: pages ask with every key that is typed. */
const weighedFindings = new WeakMap<Ledger, Finding | null>();

function findingOfLedger(ledger: Ledger): Finding | null {
  if (refusalsOf(ledger).length > 0) return null;
  const { differences, steps, matters } = ledgerResult(ledger, weighedConfidence, "");
  const last = differences.findLast((each) => each.base === "raw" && each.percentagePoints.estimate !== null);
  if (!last) return null;
  const { estimate, low, high, confidence } = last.percentagePoints;
  const numbers: FindingNumbers = {
    ...{ what: "weighed", steps: [steps[0] ?? "", last.step], batches: [last.firstBatches, last.secondBatches] },
    ...{ design: last.design, estimate, low, high, confidence },
  };
  if (low === null || high === null) return noVerdict("no-interval", numbers);
  const found = low > 0 ? "higher" : high < 0 ? "lower" : "not-shown";
  return { found, why: null, numbers, reach: matters === null ? null : { low, high, matters }, limit: null };
}

/** Confidence of the intervals of a ledger, where nobody chose another. */
export const weighedConfidence = 0.95;

/** A question of a study that measures a thing: null where the study asks one thing without a property of its own. */
export type Question = { id: string | null; name: string };

/**
 * The questions of a plan that can measure a thing of a kind; none where it cannot. A property asked for "just right" is
 * no amount, and weighings are not planned here.
 */
export function questionsFor(plan: Plan, kind: MeasureKind): Question[] {
  const { method, scale, properties, ranking } = plan;
  const shape = shapeOf(method);
  switch (shape.answer) {
    case "marks":
      return askedAttributes(scale.attributes)
        .filter(({ form }) => {
          if (form.kind === "just-right") return false;
          return kind === (form.kind === "steps" && form.liking ? "preference" : "intensity");
        })
        .map(({ id, name }) => ({ id, name }));
    case "order":
      return kind === "intensity" ? [{ id: null, name: ranking.name }] : [];
    case "portions":
      // what a mouth adds to a portion is no mass of a process, and nothing that anybody perceived
      return [];
    default:
      if (shape.property) return kind === "intensity" ? properties.map(({ id, name }) => ({ id, name })) : [];
      return kind === (familyOf(method, plan.sides) === "pair" ? "preference" : "noticed")
        ? [{ id: null, name: "" }]
        : [];
  }
}
