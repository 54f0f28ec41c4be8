import { writePlanFile } from "../archive/plan-file.ts";
import type { Plan } from "../model/plan.ts";
import { saveText } from "../ui/save.ts";
import { planFileWords as words } from "../words/en/plan-file.ts";

/** Saves the plan as a file, as it stands on the page. */
export function PlanAsFile({ study, plan }: { study: string; plan: Plan }) {
  return (
    <p class="after-row">
      <button
        type="button"
        class="quiet"
        onClick={() =>
          saveText(
            words.fileName(plan.title),
            "application/json",
            writePlanFile(plan, { id: study, title: plan.title }),
          )
        }
      >
        {words.save}
      </button>
      <span class="fine">{words.saveHint}</span>
    </p>
  );
}
