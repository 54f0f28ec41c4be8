import type { Attachment, MeasureKind } from "../model/claim.ts";
import { askedAttributes } from "../model/moments.ts";
import type { QuestionResult } from "../model/outcome.ts";
import type { Plan } from "../model/plan.ts";
import type { ChoiceResult, KindsResult, PairResult, RankResult, Result, ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { familySize } from "./attribute-family.ts";
import { type Bounded, type Finding, type Found, noVerdict, questionsFor } from "./finding.ts";
import { exactInterval } from "./share-interval.ts";

/** The claim's two products as the study names them, and the place of the question. */
type Pair = { first: string; second: string; at: number };

/**
 * What an opened study found about one thing of a claim.
 *
 * Takes    result: by `analyse`, of the plan's own study; attachment: which question, products or effect are meant
 * Returns  the direction as the locked test shows it, second product against first, with the interval that goes with
 *          that test where there is one. What was not locked as part of the question (further properties outside of the
 *          family) has numbers and no verdict
 */
export function findingOf(result: Result, plan: Plan, attachment: Attachment, kind: MeasureKind): Finding {
  const asked = questionsFor(plan, kind);
  const { question } = attachment;
  if (!asked.some(({ id }, at) => (question === null ? at === 0 : id === question))) return noVerdict("other-kind");
  if (result.family === "scale") return ofScale(result, plan, attachment);
  // what a mouth adds to a portion is neither a mass of a process nor a perception
  if (result.family === "portions") return noVerdict("other-kind");
  if (attachment.effect !== "pair") return noVerdict("not-compared");
  if (result.family === "kinds") return ofKinds(result);
  const place = question === null ? 0 : plan.properties.findIndex(({ id }) => id === question);
  const pair = pairOf(plan, attachment, Math.max(0, place));
  if (pair === null) return noVerdict("not-compared");
  switch (result.family) {
    case "choice":
      return kind === "noticed" ? ofTelling(result) : ofChoice(result, pair);
    case "pair":
      return ofPair(result, pair);
    case "rank":
      return ofRank(result, pair);
  }
}

function pairOf(plan: Plan, { first, second }: Attachment, at: number): Pair | null {
  const nameOf = (id: string | null, place: number) =>
    id === null ? plan.products[place]?.name : plan.products.find((product) => product.id === id)?.name;
  const [one, other] = [nameOf(first, 0), nameOf(second, 1)];
  return one === undefined || other === undefined || one === other ? null : { first: one, second: other, at };
}

type Outcome = Result["outcome"];

/** The words of an outcome that are no finding; null for the others. */
function without(outcome: Outcome | null): Finding["why"] {
  if (outcome === null) return "exploratory";
  return outcome === "too-few" || outcome === "withheld" || outcome === "far-below-chance" ? outcome : null;
}

/** What a verdict says, if a yes means `shown`. */
const saidBy = (outcome: Outcome | null, shown: Found): Found =>
  without(outcome)
    ? "no-verdict"
    : outcome === "reached"
      ? shown
      : outcome === "within-limit"
        ? "alike"
        : outcome === "not-within-limit"
          ? "likeness-not-shown"
          : "not-shown";

const plainFinding = (outcome: Outcome | null, shown: Found, numbers: Finding["numbers"], limit: number | null) => ({
  ...{ found: saidBy(outcome, shown), why: without(outcome), numbers, reach: null, limit },
});

/** Somebody is right: whether people can tell, in no direction. */
const ofTelling = ({ outcome, correct, judgments, guessProbability, limit }: ChoiceResult): Finding =>
  plainFinding(
    outcome,
    "differs",
    { what: "right", right: correct, of: judgments, chance: guessProbability },
    limit?.discriminatorShare ?? null,
  );

function ofKinds({ outcome, unlike, like }: KindsResult): Finding {
  const counts = ({ told, of }: { told: number; of: number }) => ({ told, of });
  return plainFinding(outcome, "differs", { what: "told", unlike: counts(unlike), like: counts(like) }, null);
}

/** A directional choice: the answers for the product that was expected to have more. */
function ofChoice(result: ChoiceResult, { first, second, at }: Pair): Finding {
  const row: QuestionResult | undefined = result.questions[at];
  if (at > 0 && !row) return noVerdict("no-test");
  const { correct, judgments } = row ?? result;
  const expected = (row?.property ?? result.property)?.expected ?? null;
  if (expected !== first && expected !== second) return noVerdict("not-compared");
  const share = row ? row.share : withTest(result);
  return plainFinding(
    row ? row.outcome : result.outcome,
    expected === second ? "higher" : "lower",
    {
      ...{ what: "picked", product: expected, picked: correct, of: judgments, chance: result.guessProbability },
      share: boundedOf(share),
    },
    result.limit?.discriminatorShare ?? null,
  );
}

/** The share right, at the confidence of a one-sided test at alpha: both ends leave chance out when the test does. */
function withTest({ correctShare, correct, judgments, alpha, goal, stopping }: ChoiceResult): Bounded {
  if (correctShare.kind !== "two-sided" || goal !== "difference" || stopping !== null) return boundedOf(correctShare);
  const confidence = 1 - 2 * alpha;
  return confidence <= 0
    ? boundedOf(correctShare)
    : { ...boundedOf(correctShare), ...exactInterval(correct, judgments, confidence), confidence };
}

const boundedOf = ({ estimate, low, high, confidence }: Bounded): Bounded => ({ estimate, low, high, confidence });

/** Votes for either product; the side with more of them is what a yes shows. */
function ofPair(result: PairResult, { second, at }: Pair): Finding {
  const row: QuestionResult | undefined = result.questions[at];
  if (at > 0 && !row) return noVerdict("no-test");
  const secondIsFirst = result.products[0] === second;
  const of = row?.judgments ?? result.judgments;
  const forFirst = row?.correct ?? result.tested.first;
  const picked = secondIsFirst ? forFirst : of - forFirst;
  const share = row ? row.share : result.firstShare;
  return plainFinding(
    row ? row.outcome : result.outcome,
    picked * 2 > of ? "higher" : "lower",
    {
      ...{ what: "picked", product: second, picked, of, chance: result.guessProbability },
      share: secondIsFirst ? boundedOf(share) : flipped(share, 1),
    },
    null,
  );
}

/** The same seen from the other product: an estimate x becomes `from` - x. */
const flipped = ({ estimate, low, high, confidence }: Bounded, from: number): Bounded => ({
  estimate: less(from, estimate),
  low: less(from, high),
  high: less(from, low),
  confidence,
});
const less = (from: number, value: number | null): number | null => (value === null ? null : from - value);

/** Rank sums of the two, judged by the range of all of them. */
function ofRank({ outcome, test, pairs, alpha, confidence }: RankResult, { first, second }: Pair): Finding {
  const pair = pairs.find(
    (each) => [each.first, each.second].includes(first) && [each.first, each.second].includes(second),
  );
  if (test !== "ok") return noVerdict("no-test");
  if (!pair) return noVerdict("not-compared");
  const given: Bounded = { estimate: pair.difference, low: pair.low, high: pair.high, confidence };
  const sums = pair.first === second ? given : flipped(given, 0);
  const why = without(outcome);
  const found = shownBy(pair.pValueAdjusted <= alpha, sums.estimate ?? 0);
  return {
    ...{ found: why ? "no-verdict" : found, why, reach: null, limit: null },
    numbers: { what: "rank-sum", ...sums },
  };
}

const shownBy = (shown: boolean, difference: number): Found =>
  shown ? (difference > 0 ? "higher" : "lower") : "not-shown";

/** One comparison of one attribute: two products, or an effect of two factors. */
function ofScale(result: ScaleResult, plan: Plan, attachment: Attachment): Finding {
  const asked = askedAttributes(plan.scale.attributes);
  const at = attachment.question === null ? 0 : asked.findIndex(({ id }) => id === attachment.question);
  const attribute = result.attributes[at];
  if (!attribute) return noVerdict("no-test");
  const given = contrastOf(attribute, plan, attachment);
  if (given === null) return noVerdict(attribute.outcome === "ok" ? "not-compared" : "no-test");
  const { low, high, estimate, pValue } = given;
  const numbers = { what: "points" as const, estimate, low, high, confidence: result.confidence };
  // what was looked at beside the family is no test of a claim; its turn comes in a study of its own
  const why = without(at > 0 && !attribute.inFamily ? null : result.outcome);
  const shares = familySize(result.attributes) > 1;
  // of several properties that share the risk, comparisons count where the property differs as a whole
  const asWhole = !shares || (attribute.pValueAdjusted !== null && attribute.pValueAdjusted <= result.alpha);
  const found = why ? "no-verdict" : shownBy(asWhole && pValue <= result.alpha, estimate);
  const matters = at === 0 && attachment.effect === "pair" ? (plan.scaleSought?.difference ?? null) : null;
  return { found, why, numbers, reach: matters === null || why ? null : { low, high, matters }, limit: null };
}

type Contrast = { estimate: number; low: number; high: number; pValue: number };

function contrastOf({ contrasts }: AttributeResult, plan: Plan, attachment: Attachment): Contrast | null {
  const { effect, turned } = attachment;
  const pair = pairOf(plan, attachment, 0);
  const found = contrasts.find(({ compared, first, second }) => {
    if (compared !== effect) return false;
    if (effect !== "pair") return true;
    return pair !== null && [first, second].includes(pair.first) && [first, second].includes(pair.second);
  });
  if (!found) return null;
  const { difference, lowTogether, highTogether, pValueAdjusted } = found;
  const other = effect === "pair" ? found.first === pair?.first : turned;
  return other
    ? { estimate: -difference, low: -highTogether, high: -lowTogether, pValue: pValueAdjusted }
    : { estimate: difference, low: lowTogether, high: highTogether, pValue: pValueAdjusted };
}
