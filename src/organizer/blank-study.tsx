import type { Plan } from "../model/plan.ts";
import { blankWords as words } from "../words/en/organizer-blank.ts";
import { useLead } from "./app-context.ts";
import { blankStudy } from "./begin-study.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";

/** Says that a study is a blank one. Nothing for any other study. */
export function BlankNote({ plan }: { plan: Pick<Plan, "blank"> }) {
  return plan.blank ? <p class="note">{words.note}</p> : null;
}

/** One press makes a draft of this plan in which every cup holds one product. A blank study has none of its own. */
export function MakeBlank({ study, plan }: { study: string; plan: Plan }) {
  const lead = useLead();
  const doing = useDoing();
  if (plan.blank) return null;
  return (
    <>
      <p class="after-row">
        <button type="button" class="quiet" onClick={() => doing.run(() => blankStudy(lead, study, plan))}>
          {words.make}
        </button>
        <span class="fine">{words.makeHint}</span>
      </p>
      <ProblemNote thrown={doing.thrown} />
    </>
  );
}
