import type { StudyState } from "../log/fold.ts";
import type { Plan } from "../model/plan.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { type Kept, useKept } from "./use-kept.ts";

export type Draft = Pick<Kept<Plan>, "edit" | "flush" | "undo"> & { plan: Plan };

/** The plan of a study at hand, kept as draft events while it is typed. */
export function useDraft(study: string, stored: NonNullable<StudyState["draft"]>): Draft {
  const lead = useLead();
  const { value, ...rest } = useKept<Plan>({ event: stored.event, value: stored.plan }, async (base, plan) => {
    const stream = { kind: "study" as const, id: study };
    return (await appendEvent(lead, { stream, kind: "draft-saved", body: { base, plan } })).id;
  });
  return { plan: value, ...rest };
}
