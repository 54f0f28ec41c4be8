import type { Finding } from "../analysis/finding.ts";
import type { Names } from "../words/en/organizer-claims.ts";
import { findingWords as words } from "../words/en/organizer-findings.ts";
import type { Row } from "./claim-rows.ts";

/** What was found, as one sentence: the numbers, then what the locked test makes of them. */
export function findingText(row: Row, finding: Finding, names: Names): string {
  const { found, why, limit } = finding;
  const verdict = [
    words.verdict[found],
    found === "alike" && limit !== null ? words.limit(limit) : "",
    why === null ? "" : words.why[why],
  ];
  return [numbersText(row, finding, names), verdict.filter(Boolean).join(": ")].filter(Boolean).join("; ");
}

function numbersText(row: Row, { numbers }: Finding, names: Names): string {
  switch (numbers?.what) {
    case undefined:
      return "";
    case "points":
      return numbers.estimate === null ? "" : words.points(contrastName(row, names), numbers.estimate, numbers);
    case "rank-sum":
      return numbers.estimate === null ? "" : words.ranks(words.less(names), numbers.estimate, numbers);
    case "typed": {
      const { difference, unit, low, high } = numbers.finding;
      return words.typed(words.less(names), difference, unit.trim(), low, high);
    }
    case "weighed":
      return numbers.estimate === null ? "" : words.weighed(words.less(names), numbers.estimate, numbers);
    case "picked":
      return words.picked(numbers.product, numbers.picked, numbers.of, numbers.chance, numbers.share);
    case "right":
      return words.right(numbers.right, numbers.of, numbers.chance);
    case "told":
      return words.told(numbers.unlike, numbers.like);
  }
}

/** What the difference is one of: the two products, the levels of a factor, or how one factor depends on the other. */
function contrastName({ attachment, study }: Row, names: Names): string {
  const comparisons = study?.plan.comparisons;
  if (!attachment || attachment.effect === "pair" || comparisons?.kind !== "two-factors") return words.less(names);
  const [one, other] = comparisons.factors;
  if (attachment.effect === "interaction") return words.dependsOn(one.name, other.name);
  const [low, high] = (attachment.effect === "first-factor" ? one : other).levels;
  return words.less(attachment.turned ? { first: high, second: low } : { first: low, second: high });
}
