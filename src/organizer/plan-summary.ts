import { criticalNumber } from "../analysis/binomial.ts";
import { choiceMethod } from "../analysis/method.ts";
import { power } from "../analysis/power.ts";
import { allergenUnion } from "../design/packet.ts";
import type { PlanPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";

/** What the number of people means: how many must be right, how often guessing gets there, how often it finds it. */
export function sizeFigures(plan: Plan): { needed: number | null; chance: number; fooled: number } {
  const { method, people, alpha, discriminatorShareSought: share } = plan;
  if (people < 1) return { needed: null, chance: 0, fooled: 0 };
  return {
    needed: criticalNumber(people, choiceMethod(method).guessProbability, alpha),
    chance: power(method, people, alpha, share),
    fooled: power(method, people, alpha, 0),
  };
}

/** One sentence for a part of the plan, as it stands; empty when nothing of it was decided. */
export function summaryOf(part: PlanPart, plan: Plan): string {
  const words = planWords.summaries;
  switch (part) {
    case "question":
      return words.question(plan);
    case "method":
      return words.method(plan);
    case "people": {
      const { needed, chance } = sizeFigures(plan);
      return words.people({
        people: plan.people,
        spares: plan.spares,
        needed,
        chance,
        share: plan.discriminatorShareSought,
      });
    }
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
