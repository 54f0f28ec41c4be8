import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import { type Served, servedBatches } from "./caveats.ts";
import { measuredOf } from "./measured.ts";

/** What is said of the study itself: the same for every method. `served` are its counted trays. */
export function studyPart(record: StudyRecord, served: readonly Served[], app: string): Result["study"] {
  const { plan, opened } = record;
  return {
    id: record.study,
    title: plan.title,
    invented: plan.invented,
    blank: plan.blank,
    objective: plan.objective,
    ifYes: plan.ifYes,
    ifNo: plan.ifNo,
    standsFor: plan.standsFor,
    panelType: plan.panelType,
    products: plan.products.map(({ id, name, preparation }) => ({
      name,
      preparation,
      batches: servedBatches(record, served, id),
    })),
    lockedAt: record.lockedAt,
    closedAt: record.closedAt,
    revealedAt: record.revealedAt,
    commitment: record.commitment,
    keyMatches: record.keyMatches,
    seed: opened.key.seed,
    planned: plan.people,
    measured: measuredOf(record, app),
  };
}
