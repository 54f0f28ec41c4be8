import type { StudyState } from "../log/fold.ts";
import type { Plan } from "../model/plan.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { planDifferences } from "./differences.ts";
import { type Kept, useKept } from "./use-kept.ts";

/** A plan at hand, as its parts take it. */
export type Draft = Pick<Kept<Plan>, "edit" | "flush"> & { plan: Plan };

/** A plan at hand with the way back through its changes, and out of versions that did not know of each other. */
export type PlanDraft = Draft & Pick<Kept<Plan>, "undo" | "redo" | "settle">;

/** The plan of a study at hand, kept as draft events while it is typed. */
export function useDraft(study: string, { draft, otherDrafts }: Pick<StudyState, "draft" | "otherDrafts">): PlanDraft {
  const lead = useLead();
  if (!draft) throw new Error("a study without a draft has no plan page");
  const { value, ...rest } = useKept<Plan>({
    stored: { event: draft.event, value: draft.plan, others: otherDrafts.map(({ event }) => event) },
    save: async (base, merged, plan) => {
      const stream = { kind: "study" as const, id: study };
      return (await appendEvent(lead, { stream, kind: "draft-saved", body: { base, merged, plan } })).id;
    },
    differ: planDifferences,
  });
  return { plan: value, ...rest };
}
