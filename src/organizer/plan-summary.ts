import { familyOf } from "../analysis/method.ts";
import { portionTestOf } from "../analysis/portion-power.ts";
import { pairPower, scaleTestOf, verdictSteps } from "../analysis/scale-power.ts";
import { allergenUnion } from "../design/packet.ts";
import { seeksLikeness, sizeTest, usualDPrime } from "../design/size-test.ts";
import type { PlanPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { asksLiking } from "../model/steps.ts";
import { chewSize } from "../words/en/organizer-chew-size.ts";
import type { SizeWords } from "../words/en/organizer-people.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { scaleSize } from "../words/en/organizer-scale-size.ts";

/**
 * What the number of people means: the count that decides, how likely a false yes is, and a yes where one is wanted.
 * Null for the line scale, which has no such count.
 */
export function sizeFigures(
  plan: Plan,
  test = sizeTest(plan),
): { needed: number | null; chance: number; fooled: number } | null {
  const { people } = plan;
  if (test === null) return null;
  if (people < 1) return { needed: null, chance: 0, fooled: 0 };
  return {
    needed: test.criticalNumber(people),
    chance: test.chance(people, test.soughtAt),
    fooled: test.chance(people, test.falseAt),
  };
}

/** The words that go with the test of a plan, and the share they speak of: the one sought, or the limit. */
export function sizeWords(plan: Plan): { words: SizeWords; share: number } {
  const { by } = planWords.people;
  if (seeksLikeness(plan)) return { words: by.likeness, share: sizeTest(plan)?.falseAt ?? plan.similarity.limit };
  const family = familyOf(plan.method, plan.sides);
  if (family === "kinds") return { words: by.distance, share: plan.dPrimeSought ?? usualDPrime };
  return { words: family === "pair" ? by.preference : by.difference, share: sizeTest(plan)?.soughtAt ?? 0 };
}

/** What a line-scale plan finds of what it says to matter; empty while it says nothing. */
function scaleSummary(plan: Plan): string {
  const test = plan.method === "line-scale" ? scaleTestOf(plan) : null;
  if (test === null || plan.people < 1) return "";
  return scaleSize.summary(
    pairPower(test, plan.people),
    test.difference,
    test.deviation,
    plan.scaleSought?.from ?? "",
    verdictSteps(plan),
  );
}

/** The same of chewed portions. */
function portionSummary(plan: Plan): string {
  const test = plan.method === "chew-and-weigh" ? portionTestOf(plan) : null;
  if (test === null || plan.people < 1) return "";
  return chewSize.summary(pairPower(test, plan.people), test.difference, plan.chew.scatter);
}

/** One sentence for a part of the plan, as it stands; empty when nothing of it was decided. */
export function summaryOf(part: PlanPart, plan: Plan): string {
  const words = planWords.summaries;
  switch (part) {
    case "question":
      return words.question(plan);
    case "method":
      return words.method(plan);
    case "people":
      return [words.people(plan, sizeFigures(plan)), scaleSummary(plan), portionSummary(plan)]
        .filter(Boolean)
        .join(" ");
    case "samples":
      return words.samples(plan);
    case "serving":
      return words.serving(plan);
    case "safety": {
      const { contains, mayContain, other } = allergenUnion(plan);
      return plan.declarations.length === 0 ? "" : words.safety(contains, mayContain, other);
    }
  }
}

/** Does this plan ask what people like? */
const asksForLiking = ({ method, ranking, scale }: Plan): boolean =>
  method === "paired-preference" ||
  (method === "ranking" && ranking.liking) ||
  (method === "line-scale" && scale.attributes.some(({ form }) => asksLiking(form)));

/** What is to be said of a panel whose liking is not that of customers; empty where none is asked for, or it is. */
export const likingFlag = (plan: Plan): string =>
  asksForLiking(plan) ? planWords.method.panelFlag[plan.panelType] : "";
