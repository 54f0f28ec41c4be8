import { type Reshuffled, reshuffled } from "../analysis/reshuffle.ts";
import { seeded } from "../analysis/seeded.ts";
import { type FoundInFile, resultOfFile } from "./elsewhere-result.ts";
import type { Job } from "./job.ts";
import { type Opened, openedStudy } from "./opened-study.ts";
import { type CheckedPoint, checkResult } from "./verify.ts";

/** What each job gives. */
export type Values = {
  /** The page has the texts already. */
  study: Omit<Opened, "failure" | "texts">;
  file: FoundInFile;
  verify: CheckedPoint[];
  reshuffle: Reshuffled | null;
};

/**
 * Does one job, in a worker or in the page.
 *
 * Takes    step: told how far it is, 0 to 1, where a job has steps; awaited, so that a page can draw between them
 * Throws   what the job throws
 */
export async function compute(job: Job, step: (share: number) => Promise<void>): Promise<Values[Job["job"]]> {
  switch (job.job) {
    case "study": {
      const { texts: _, ...opened } = openedStudy(job.study, job.texts, job.quarantined, job.app);
      return opened;
    }
    case "file":
      return resultOfFile(job.text, job.path, job.asked, job.app);
    case "verify":
      return checkResult(job.text, job.shown, job.path);
    case "reshuffle": {
      const { blocks, products, times, seed } = job;
      const steps = reshuffled(blocks, products, times, seeded(seed, "reshuffle").below);
      for (let next = steps.next(); ; next = steps.next()) {
        if (next.done) return next.value;
        await step(next.value / times);
      }
    }
  }
}
