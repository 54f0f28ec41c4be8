import * as z from "zod/mini";
import { noMarkReasons, stopReasons } from "./ballot-event.ts";
import { answerWords } from "./method.ts";
import { code, codeOrder, count, hash, id, trayNumber } from "./schema.ts";

/**
 * A ballot on paper as one person typed it in, whole. A tablet loads this with the page on which it is typed, later than
 * its first screen.
 */

/** One question of a choice: what was ticked; null where "I cannot answer" was. A question left empty does not stand here. */
const paperChoice = z.strictObject({
  question: count,
  choice: z.nullable(z.union([code, z.enum(answerWords), codeOrder])),
  guess: z.boolean(),
});

/**
 * One question of a scale, with exactly one of three: millimeters from the left end of the printed line to the stroke,
 * as read off a ruler; the step that was ticked, from 1; or why there is neither.
 */
const paperMark = z.strictObject({
  question: count,
  code,
  attribute: id,
  mm: z.nullable(z.number().check(z.int(), z.minimum(0), z.maximum(1000))),
  step: z.nullable(z.number().check(z.int(), z.minimum(1), z.maximum(11))),
  why: z.nullable(z.enum(noMarkReasons)),
});

export const paperTyped = z.strictObject({
  tray: trayNumber,
  /** Who typed: 1 the first person, 2 the second one, who checks by typing it anew. No names. */
  typing: z.union([z.literal(1), z.literal(2)]),
  /** The other person's typing that this tablet held it against, and whether the two agree; null where it has none. */
  against: z.nullable(id),
  agrees: z.nullable(z.boolean()),
  /** The version of the list of allergens that was cleared by a tick; null: the box was left empty. */
  clearance: z.nullable(hash),
  /** The version of the text that was agreed to by a tick; null: left empty, or none stands on the paper. */
  consent: z.nullable(hash),
  /** Why the ballot ends without all answers: no tick that nothing concerns the person, or one at "I cannot answer". */
  stopped: z.nullable(z.enum(stopReasons)),
  /** Length of the printed lines as measured, in millimeters; null where the paper has none that is marked. */
  lineMm: z.nullable(z.number().check(z.int(), z.minimum(1), z.maximum(1000))),
  choices: z.array(paperChoice).check(z.maxLength(60)),
  marks: z.array(paperMark).check(z.maxLength(400)),
  /** 32 random bytes: without them the hash that an outline shows would tell the answers to whoever tries them all. */
  salt: hash,
});
export type PaperTyped = z.infer<typeof paperTyped>;

/** What anybody but the tablet sees of it before the reveal: which questions have an answer, never which. */
export const paperOutline = z.strictObject({
  tray: trayNumber,
  typing: z.union([z.literal(1), z.literal(2)]),
  against: z.nullable(id),
  agrees: z.nullable(z.boolean()),
  stopped: z.nullable(z.enum(stopReasons)),
  questions: z.array(count),
  /**
   * The other person's typings of this tray that the server had when this one came, from any tablet, and whether the two
   * agree. The server holds what was typed; that two say the same tells nothing of what they say.
   */
  compared: z._default(z.array(z.strictObject({ typing: id, agrees: z.boolean() })), []),
});

/** The questions that have an answer; of a scale also those that the panelist could not judge, as on a tablet. */
export const answeredOnPaper = ({ choices, marks }: Pick<PaperTyped, "choices" | "marks">): number[] =>
  [...choices.filter(({ choice }) => choice !== null), ...marks].map(({ question }) => question).sort((a, b) => a - b);
