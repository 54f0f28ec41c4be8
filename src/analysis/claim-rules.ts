import type { Prediction } from "../model/claim.ts";
import type { Finding } from "./finding.ts";

/** Whether the data still allow an explanation; not-tested: they say nothing about it. */
export type Judgment = "contradicted" | "allowed" | "not-tested";

/**
 * Why. as-predicted: shown in the predicted direction. opposite: shown in the other one. difference-shown: none was
 * predicted. small: shown, and too small to matter. excluded: not shown, and the interval leaves no difference in the
 * predicted direction that matters. not-shown: neither for nor against. alike: within the locked limit of likeness.
 * no-direction: a difference was shown, which way nobody knows.
 */
export type Because =
  | "silent"
  | "no-result"
  | "no-verdict"
  | "as-predicted"
  | "opposite"
  | "difference-shown"
  | "small"
  | "excluded"
  | "not-shown"
  | "alike"
  | "likeness-not-shown"
  | "no-direction";

export type Judged = { judgment: Judgment; because: Because };

const allowed = (because: Because): Judged => ({ judgment: "allowed", because });
const contradicted = (because: Because): Judged => ({ judgment: "contradicted", because });
const untested = (because: Because): Judged => ({ judgment: "not-tested", because });

/**
 * A prediction beside a finding. Careful with "contradicted", since every finding has its own risk of being wrong:
 *
 * - a finding without a verdict, or none, tests nothing; nor is a prediction tested that was not made;
 * - "higher" (and "lower" alike) is contradicted by a difference shown the other way; by likeness within the limit that
 *   was locked; and, where nothing was shown, only if the interval of the test ends short of the smallest difference in
 *   that direction that was named beforehand as mattering. A difference shown in the predicted direction never
 *   contradicts it, however small;
 * - "differs" is contradicted by likeness within the limit, or by an interval within the smallest differences that
 *   matter on both sides;
 * - "none" is contradicted by a difference that was shown, unless its whole interval is too small to matter. It is never
 *   confirmed by one that was not;
 * - a result that was not shown otherwise allows everything.
 *
 * Takes    finding: null while there is no result
 */
export function judgePrediction(prediction: Prediction, finding: Finding | null): Judged {
  if (prediction === "silent") return untested("silent");
  if (finding === null) return untested("no-result");
  const { found } = finding;
  if (found === "no-verdict") return untested("no-verdict");
  if (found === "likeness-not-shown") return allowed("likeness-not-shown");
  if (found === "alike") return prediction === "none" ? allowed("alike") : contradicted("alike");
  if (found === "not-shown") return excludes(finding, prediction) ? contradicted("excluded") : allowed("not-shown");
  // from here on a difference was shown
  if (prediction === "none") return isSmall(finding) ? allowed("small") : contradicted("difference-shown");
  if (prediction === "differs" || found === prediction) return allowed("as-predicted");
  return found === "differs" ? allowed("no-direction") : contradicted("opposite");
}

/** Does the interval of a result that was not shown leave no room for a difference that matters, as it was predicted? */
function excludes({ reach }: Finding, prediction: Prediction): boolean {
  if (reach === null || prediction === "none") return false;
  const noHigher = reach.high < reach.matters;
  const noLower = reach.low > -reach.matters;
  if (prediction === "higher") return noHigher;
  return prediction === "lower" ? noLower : noHigher && noLower;
}

const isSmall = ({ reach }: Finding): boolean =>
  reach !== null && reach.high < reach.matters && reach.low > -reach.matters;

/** What is allowed of an explanation by everything together: one contradiction is enough, and nothing is averaged. */
export function judgeAll(judgments: readonly Judgment[]): Judgment {
  if (judgments.includes("contradicted")) return "contradicted";
  return judgments.includes("allowed") ? "allowed" : "not-tested";
}
