import * as z from "zod/mini";
import { brokenLinks } from "../log/chain.ts";
import { readEvent } from "../log/facts.ts";
import { foldStudy } from "../log/fold.ts";
import { recordOf } from "../log/record.ts";
import type { Fact } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import { id, instant, line, read } from "../model/schema.ts";
import { checksCommitment } from "../seal/verify.ts";

/** A study as one file: its log, each event as the exact text its device wrote, so that hashes still verify. */
export const studyFile = z.strictObject({
  format: z.literal("cloche-study"),
  v: z.literal(1),
  /** Version of the app that wrote the file. */
  app: line,
  exportedAt: instant,
  study: id,
  events: z.array(z.string().check(z.maxLength(1_000_000))),
});
export type StudyFile = z.infer<typeof studyFile>;

/** The text of a study file, one event a line so that people and tools can look into it. */
export function writeStudyFile(file: Omit<StudyFile, "format" | "v">): string {
  return `${JSON.stringify({ format: "cloche-study", v: 1, ...file } satisfies StudyFile, null, 1)}\n`;
}

/**
 * Reads a study file.
 * Throws   Problem "file/not-json", "file/wrong-shape" with the field (or the event, from 1) at fault
 */
export function readStudyFile(text: string, path: string): StudyFile {
  return read(studyFile, parseJson(text, path), (misfit) => problem("file/wrong-shape", { path, ...misfit }));
}

/**
 * A JSON text as a value; a byte order mark does no harm.
 * Throws   Problem "file/not-json" with what the parser says
 */
export function parseJson(text: string, path: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (thrown) {
    const said = thrown instanceof Error ? thrown.message : String(thrown);
    // the sentence says already that it is no JSON, and whose text it is
    throw problem("file/not-json", { path, reason: said.replace(/,? [^,]*is not valid JSON$/s, "") });
  }
}

export type FiledRecord = {
  record: StudyRecord;
  /** Events of a newer app or of a kind unknown here: kept in the file, not used. */
  held: number;
  /** Events that do not follow the one their device wrote before: the file was changed, or a part is missing. */
  brokenLinks: number;
};

/**
 * The record of the study in a file, by the same fold as everywhere.
 *
 * Throws   Problem "file/wrong-shape" for an event that cannot be read or belongs to another study,
 *          "file/not-revealed" when the key was not opened yet: there is no result to give
 */
export function recordOfFile(file: StudyFile, path: string): FiledRecord {
  const facts: Fact[] = [];
  let held = 0;
  file.events.forEach((text, at) => {
    const where = `event ${at + 1}`;
    const event = readEvent(text);
    if (!event.ok) throw problem("file/wrong-shape", { path, where, expected: `an event (${event.reason})` });
    if (event.envelope.stream.kind !== "study" || event.envelope.stream.id !== file.study) {
      throw problem("file/wrong-shape", { path, where, expected: `an event of the study ${file.study}` });
    }
    if (event.fact) facts.push(event.fact);
    else held += 1;
  });
  const state = foldStudy(facts);
  if (!state.lock || !state.reveal) throw problem("file/not-revealed", { path });
  const matches = checksCommitment(state.reveal.body.opened, state.lock.body.sealed.commitment);
  return { record: recordOf(state, matches), held, brokenLinks: brokenLinks(facts).length };
}
