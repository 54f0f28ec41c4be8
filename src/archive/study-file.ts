import * as z from "zod/mini";
import { brokenLinks, type Link, missingFrom } from "../log/chain.ts";
import { readEvent } from "../log/facts.ts";
import { foldStudy, type StudyState } from "../log/fold.ts";
import { recordOf } from "../log/record.ts";
import type { Fact } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import { count, id, instant, line, read } from "../model/schema.ts";
import { checksCommitment } from "../seal/verify.ts";

/** A study as one file: its log, each event as the exact text its device wrote, so that hashes still verify. */
export const studyFile = z.strictObject({
  format: z.literal("cloche-study"),
  v: z.literal(1),
  /** Version of the app that wrote the file. */
  app: line,
  exportedAt: instant,
  study: id,
  /** Events that the server kept aside: they are no part of the file, but of what the report tells. */
  quarantined: z._default(count, 0),
  events: z.array(z.string().check(z.maxLength(1_000_000))),
});
export type StudyFile = z.infer<typeof studyFile>;

/** What a study file is written from; without a count of events kept aside there were none. */
export type StudyParts = Omit<z.input<typeof studyFile>, "format" | "v">;

/** The text of a study file, one event a line so that people and tools can look into it. */
export function writeStudyFile(file: StudyParts): string {
  return `${JSON.stringify({ format: "cloche-study", v: 1, ...file } satisfies z.input<typeof studyFile>, null, 1)}\n`;
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
  state: StudyState;
  /** Events of a newer app or of a kind unknown here: kept in the file, not used. */
  held: number;
  /** Events that do not follow the one their device wrote before: the file was changed, or a part is missing. */
  brokenLinks: number;
  /** Events that the close and the reveal name and the file lacks. */
  missing: number;
};

/**
 * The record of the study in a file, by the same fold as everywhere: what the report shows and what is checked later.
 *
 * Throws   Problem "file/bad-event" for an event that cannot be read, "file/foreign-event" for one of another study,
 *          "file/not-revealed" when the key was not opened yet: there is no result to give
 */
export function recordOfFile(file: Pick<StudyFile, "study" | "events" | "quarantined">, path: string): FiledRecord {
  const { facts, links } = readEvents(file, path);
  const held = links.length - facts.length;
  const state = foldStudy(facts);
  const { lock, close, reveal } = state;
  if (!lock || !reveal) throw problem("file/not-revealed", { path });
  const missing = missingFrom([close?.body.heads ?? {}, reveal.body.heads], links);
  const record = recordOf(state, {
    keyMatches: checksCommitment(reveal.body.opened, lock.body.sealed.commitment),
    quarantined: file.quarantined,
    missing,
    notRead: held,
  });
  return { record, state, held, brokenLinks: brokenLinks(links).length, missing };
}

function readEvents({ study, events }: Pick<StudyFile, "study" | "events">, path: string) {
  const facts: Fact[] = [];
  const links: Link[] = [];
  events.forEach((text, at) => {
    const read = readEvent(text);
    if (!read.ok) throw problem("file/bad-event", { path, event: at + 1, reason: read.reason });
    const { envelope, hash, fact } = read;
    if (envelope.stream.kind !== "study" || envelope.stream.id !== study) {
      throw problem("file/foreign-event", { path, event: at + 1, study });
    }
    links.push({ ...envelope, hash });
    if (fact) facts.push(fact);
  });
  return { facts, links };
}
