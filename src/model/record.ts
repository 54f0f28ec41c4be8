import * as z from "zod/mini";
import type { ScaleForm } from "./attribute.ts";
import { noMarkReasons } from "./ballot-event.ts";
import { spareReasons, voidReasons } from "./event.ts";
import { type Key, openedKey } from "./key.ts";
import { kitchenDepartures, kitchenRow, otherBatch } from "./kitchen-record.ts";
import { massSources } from "./measured.ts";
import { answerWords } from "./method.ts";
import { blindPacket } from "./packet.ts";
import { plan } from "./plan.ts";
import { portionDepartures, weighedPortion } from "./record-portions.ts";
import { code, codeOrder, count, hash, id, instant, line, trayNumber } from "./schema.ts";

/** One counted answer of a choice test. */
export const judgment = z.strictObject({
  tray: trayNumber,
  seat: count,
  wave: count,
  device: id,
  /** From 1, in the order of the packet's properties; 1 where there is one question. */
  question: z._default(count, 1),
  choice: z.union([code, z.enum(answerWords), codeOrder]),
  guess: z.boolean(),
  /** Given on paper, typed in by one person and checked by a second. */
  paper: z._default(z.boolean(), false),
});
export type Judgment = z.infer<typeof judgment>;

/** One kept mark of a line scale, or the word that there is none. */
export const keptMark = z.strictObject({
  tray: trayNumber,
  seat: count,
  wave: count,
  device: id,
  code,
  /** The attribute's id. */
  attribute: id,
  /** Place on the scale, 0 to 1; null when the panelist could not judge. */
  fraction: z.nullable(z.number()),
  why: z.nullable(z.enum(noMarkReasons)),
  /** Null for steps, which have no length. */
  lengthMm: z.nullable(z.number()),
  lengthPx: z.nullable(z.number()),
  pointer: line,
  chewedSeconds: z.nullable(z.number()),
  hidden: z.boolean(),
  /** Null on paper, which has no clock. */
  elapsedMs: z.nullable(z.number()),
  /** Made on paper: `pointer` is "paper", and `lengthMm` the printed line as it was measured. */
  paper: z._default(z.boolean(), false),
});
export type KeptMark = z.infer<typeof keptMark>;

/** One portion that was chewed and spat into its cup, or not wholly: then there is nothing to weigh. */
export const keptPortion = z.strictObject({
  tray: trayNumber,
  seat: count,
  wave: count,
  device: id,
  code,
  /** Its place on the tray, from 1. */
  question: count,
  /** Null: the tablet's page was loaded anew while the clock ran. */
  chewedSeconds: z.nullable(z.number()),
  whole: z.boolean(),
  hidden: z.boolean(),
});
export type KeptPortion = z.infer<typeof keptPortion>;

/**
 * One question of a counted tray of a line scale: what was under its code, and the mark that was kept; null when the
 * question was never reached. `place` counts from 1 in serving order.
 */
export type MarkedLine = {
  tray: number;
  seat: number;
  wave: number;
  code: string;
  /** The attribute's id. */
  attribute: string;
  order: string;
  place: number;
  product: string;
  batch: string;
  mark: KeptMark | null;
};

/** One answer of a choice test that came without a study. `repeat` counts that person's answers from 1. */
export type AnswerRow = { panelist: string; repeat: string; correct: boolean };
/** One answer of a preference that came without a study: a product as it was named there, or null for neither. */
export type ChoiceRow = { panelist: string; repeat: string; choice: string | null };
/**
 * One answer of a same-different or A-not-A test that came without a study. `unlike`: two different products were on
 * the tray, or the sample was not A; `told`: it was called different, or not A.
 */
export type KindRow = { panelist: string; repeat: string; unlike: boolean; told: boolean };
/** One value of a scale that came without a study. `moment` and `attribute` are empty where there was but one. */
export type ScaleRow = {
  panelist: string;
  product: string;
  repeat: string;
  attribute: string;
  moment: string;
  /** What it was served with, where the file says so: place from 1, and names. */
  place?: number | null;
  session?: string;
  batch?: string;
  /** Null: no answer. */
  value: number | null;
  /** The same in all rows of an attribute and moment; none: a line. */
  form?: ScaleForm;
};

/** One product's rank in one person's order that came without a study, 1 for the least; null: none given. */
export type RankRow = { panelist: string; product: string; rank: number | null };

/** Why a planned tray has no counted answer, as far as the log tells. */
export const unansweredReasons = [
  "never-opened",
  "not-answered",
  "stopped",
  "voided",
  "contested",
  "replaced",
  "too-late",
  "not-checked",
] as const;
export type UnansweredReason = (typeof unansweredReasons)[number];

/** What did not go by the plan, as facts; the report words them. */
export const departure = z.discriminatedUnion("what", [
  z.strictObject({ what: z.literal("ballot-voided"), tray: trayNumber, reason: z.enum(voidReasons), note: line }),
  z.strictObject({
    what: z.literal("spare-served"),
    tray: trayNumber,
    instead: z.nullable(trayNumber),
    reason: z.enum(spareReasons),
    note: line,
  }),
  z.strictObject({ what: z.literal("spare-unexplained"), tray: trayNumber }),
  z.strictObject({ what: z.literal("contest-settled"), tray: trayNumber, note: line }),
  z.strictObject({ what: z.literal("contest-open"), tray: trayNumber }),
  z.strictObject({ what: z.literal("late-excluded"), tray: trayNumber }),
  z.strictObject({ what: z.literal("late-admitted"), tray: trayNumber, note: line }),
  z.strictObject({ what: z.literal("after-reveal"), tray: trayNumber }),
  z.strictObject({ what: z.literal("off-plan"), tray: trayNumber }),
  z.strictObject({ what: z.literal("unfinished"), tray: trayNumber }),
  /** Questions of a counted tray: left without a mark by the panelist (line scale), or never reached. */
  z.strictObject({ what: z.literal("not-judged"), tray: trayNumber, questions: count }),
  z.strictObject({ what: z.literal("not-reached"), tray: trayNumber, questions: count }),
  /** Answers of a counted tray that came after the close and were not admitted. */
  z.strictObject({ what: z.literal("marks-late"), tray: trayNumber, questions: count }),
  /** The line was shown at another length than the locked one. */
  z.strictObject({ what: z.literal("other-length"), tray: trayNumber, lengthMm: z.number() }),
  /** The app was in the background while the chew clock ran: the moment of the answer is in doubt. */
  z.strictObject({ what: z.literal("clock-hidden"), tray: trayNumber, questions: count }),
  z.strictObject({
    what: z.literal("stopped"),
    tray: trayNumber,
    reason: z.enum(["stopped", "cannot-answer", "not-cleared"]),
  }),
  /** Counted ballots on paper: typed in by one person, checked by a second who typed them anew. */
  z.strictObject({ what: z.literal("typed-from-paper"), trays: z.array(trayNumber) }),
  /** Typed in by one person only, or by two who did not type the same: it does not count. */
  z.strictObject({ what: z.literal("paper-not-checked"), tray: trayNumber, why: z.enum(["once", "differs"]) }),
  /** Typed in after the reveal, by whoever could have seen the key: it does not count. */
  z.strictObject({ what: z.literal("paper-after-reveal"), tray: trayNumber }),
  /** The counted ballot on paper was typed in anew after an entry of it was voided. */
  z.strictObject({ what: z.literal("paper-typed-anew"), tray: trayNumber }),
  z.strictObject({ what: z.literal("key-reprinted"), paper: line }),
  z.strictObject({ what: z.literal("closed-with-unsent"), unsent: count }),
  z.strictObject({ what: z.literal("rival-event"), kind: line }),
  z.strictObject({ what: z.literal("quarantined"), events: count }),
  /** Planned trays with no counted answer, those of one reason together. */
  z.strictObject({
    what: z.literal("not-answered"),
    why: z.enum(unansweredReasons),
    trays: z.array(trayNumber),
  }),
  /** One person's answers to two trays or more that all count, though a spare was served instead of one of them. */
  z.strictObject({ what: z.literal("seat-counted-twice"), seat: count, trays: z.array(trayNumber) }),
  /** What the lead wrote at the close. */
  z.strictObject({ what: z.literal("close-note"), note: line }),
  /** Records that the close or the reveal saw and the log at hand lacks. */
  z.strictObject({ what: z.literal("records-missing"), records: count }),
  /** Records of a newer app, or of a kind unknown here: kept, not used. */
  z.strictObject({ what: z.literal("records-not-read"), records: count }),
  ...portionDepartures,
  ...kitchenDepartures,
]);
export type Departure = z.infer<typeof departure>;

/** A closed and revealed study, as facts: what `analyse` takes. Made by `log/record` from the folded log. */
export const studyRecord = z.strictObject({
  study: id,
  plan,
  packet: blindPacket,
  opened: openedKey,
  /** Did the opened key give the locked commitment? */
  keyMatches: z.boolean(),
  commitment: hash,
  app: line,
  lockedAt: instant,
  closedAt: z.nullable(instant),
  revealedAt: instant,
  judgments: z.array(judgment),
  /** Line scale: one for each question of a counted tray that was answered, marked or not. */
  marks: z._default(z.array(keptMark), []),
  /** Chewed portions: one for each code of a counted tray that was chewed. What they weigh is no answer of a tablet. */
  portions: z._default(z.array(keptPortion), []),
  /** What the balance showed of portions, chewed or not, in the order of trays and places. */
  weighings: z._default(z.array(weighedPortion), []),
  /** Looks of the stopping rule, in their order: which of the counted trays each of them saw. */
  looks: z._default(
    z.array(
      z.strictObject({
        event: id,
        at: instant,
        trays: z.array(trayNumber),
        said: z.nullable(z.enum(["go-on", "stop"])),
      }),
    ),
    [],
  ),
  /** Masses that the lead put beside the answers. `afterReveal`: when the key was open. */
  masses: z._default(z.nullable(z.strictObject({ sources: massSources, afterReveal: z.boolean() })), null),
  /** Planned trays (spares left out) with no counted answer. */
  notAnswered: z.array(trayNumber),
  departures: z.array(departure),
  /** Samples that came from another batch than the opened key says: what was cooked anew or swapped on the day. */
  otherBatches: z._default(z.array(otherBatch), []),
  /** Temperatures and times as they were written down, wave by wave. */
  temperatures: z._default(z.array(kitchenRow), []),
});
export type StudyRecord = z.infer<typeof studyRecord>;

/** The opened key with the batches that were really served; empty where nobody can say which one it was. */
export function servedKey({ opened, otherBatches }: Pick<StudyRecord, "opened" | "otherBatches">): Key["trays"] {
  if (otherBatches.length === 0) return opened.key.trays;
  const nameOf = (tray: number, code: string | null) => `${tray} ${code ?? ""}`;
  const others = new Map(otherBatches.map(({ tray, code, batch }) => [nameOf(tray, code), batch]));
  return opened.key.trays.map((tray) => ({
    ...tray,
    samples: tray.samples.map((sample) => ({
      ...sample,
      batch: others.get(nameOf(tray.tray, sample.code)) ?? sample.batch,
    })),
    ...(tray.reference
      ? { reference: { ...tray.reference, batch: others.get(nameOf(tray.tray, null)) ?? tray.reference.batch } }
      : {}),
  }));
}
