import { type Description, describe } from "../analysis/describe.ts";
import { type Reshuffled, reshuffled } from "../analysis/reshuffle.ts";
import { seeded } from "../analysis/seeded.ts";
import { sha256 } from "../model/canonical.ts";
import { report } from "../words/en/report.ts";
import { type FoundInFile, resultOfFile } from "./elsewhere-result.ts";
import type { Job } from "./job.ts";
import { type Opened, openedStudy } from "./opened-study.ts";
import { type CheckedPoint, checkResult } from "./verify.ts";

/** What each job gives. */
export type Values = {
  /** The page has the texts already. */
  study: Omit<Opened, "failure" | "texts">;
  /** With what a page would take long for: the sentences, and the SHA-256 of the text. */
  file: FoundInFile & { said: Description; fingerprint: string };
  verify: CheckedPoint[];
  reshuffle: Reshuffled | null;
};

const fileFound = (found: FoundInFile, text: string): Values["file"] => ({
  ...found,
  said: describe(found.result, report),
  fingerprint: sha256(text),
});

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
      return fileFound(resultOfFile(job.text, job.path, job.asked, job.app), job.text);
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
