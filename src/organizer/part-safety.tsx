import { planWords } from "../words/en/organizer-plan.ts";
import { SafetyAllergens } from "./safety-allergens.tsx";
import { SafetyCautions } from "./safety-cautions.tsx";
import { SafetyConsent } from "./safety-consent.tsx";
import { SafetyLimits } from "./safety-limits.tsx";
import type { Draft } from "./use-draft.ts";

/** Part 6: what is in the food, how hot and how long, what to look after, and what people agree to. */
export function PartSafety({ draft }: { draft: Draft }) {
  return (
    <>
      <p class="law">{planWords.safety.law}</p>
      <SafetyAllergens draft={draft} />
      <SafetyLimits draft={draft} />
      <SafetyCautions draft={draft} />
      <SafetyConsent draft={draft} />
    </>
  );
}
