import { writeStudyFile } from "../archive/study-file.ts";
import type { Opened } from "./opened-study.ts";

/** The file of the study as this device holds it, the same for saving and for verifying. */
export const studyText = ({ record, quarantined, texts }: Opened, app: string, exportedAt: string): string =>
  writeStudyFile({ app, exportedAt, study: record.study, quarantined, events: texts });
