import { demoPassphrase } from "../demo/chance.ts";
import type { Plan } from "../model/plan.ts";
import { demoWords } from "../words/en/demo.ts";

/** Says that a study is the demo's; with `opens`, by which words its key opens. Nothing for any other study. */
export function Invented({ plan, opens }: { plan: Pick<Plan, "invented">; opens?: boolean }) {
  if (!plan.invented) return null;
  return (
    <p class="note">
      {demoWords.invented} {opens ? demoWords.passphrase(demoPassphrase()) : ""}
    </p>
  );
}
