import * as z from "zod/mini";
import { allergens } from "./allergen.ts";
import { askedAttribute, cautions, lineLengths } from "./attribute.ts";
import { askedChew } from "./chew.ts";
import { type AnswerWord, plannable, shapeOf } from "./method.ts";
import { code, count, hash, id, line, paragraph, trayNumber } from "./schema.ts";

/**
 * The blind packet: all that a panel device ever receives of a study.
 *
 * Strict on purpose: an unknown field is an error at the server's exit, so that nothing can slip through. It holds
 * no product, no batch, no title, no seed, no order label, and its commitment is a fixed-length hash over fresh
 * random bytes. Codes stand in serving order.
 */
export const blindTray = z.strictObject({
  tray: trayNumber,
  wave: count,
  spare: z.boolean(),
  codes: z.array(code).check(z.minLength(1), z.maxLength(6)),
});
export type BlindTray = z.infer<typeof blindTray>;

/**
 * The page on which people agree to take part, as it is read to them: the log says by the version, which covers every
 * word, to which text somebody agreed.
 */
const consent = z.strictObject({
  version: hash,
  lines: z.array(z.strictObject({ term: line, text: paragraph })),
});

export const blindPacket = z.strictObject({
  v: z.literal(1),
  study: id,
  method: z.enum(plannable),
  /** Version of the ballot's wording; the words themselves ship with the app. */
  wording: z.string().check(z.maxLength(40)),
  /** Is "no preference" an answer? */
  noPreference: z._default(z.boolean(), false),
  /** The letter on an uncoded cup that is tasted first. */
  reference: z._default(z.nullable(z.enum(["R", "A"])), null),
  /** What a directional choice asks for, in the order of the questions; empty for other methods. */
  properties: z._default(z.array(z.strictObject({ id, comparative: line, definition: paragraph })), []),
  /** Ranking: what the samples are put in order of. */
  ranking: z._default(z.nullable(z.strictObject({ least: line, most: line, definition: paragraph })), null),
  /**
   * Line scale: what is asked of each sample, once for each moment, in that order, and the true length of the line; null
   * where no property has one.
   */
  line: z._default(
    z.nullable(
      z.strictObject({
        lengthMm: z.nullable(z.number().check(z.minimum(lineLengths.least), z.maximum(lineLengths.most))),
        attributes: z.array(askedAttribute).check(z.minLength(1), z.maxLength(60)),
      }),
    ),
    null,
  ),
  /** How portions are chewed that are weighed afterwards; null for other methods. */
  chew: z._default(z.nullable(askedChew), null),
  palette: z.enum(["day", "dim"]),
  /** Union over everything served, in the order of law, the same for every tray; `version` names it in a clearance. */
  allergens: z.strictObject({
    version: hash,
    contains: z.array(z.enum(allergens)),
    mayContain: z.array(z.enum(allergens)),
    other: z.array(line),
  }),
  cautions: z.array(z.enum(cautions)),
  /** What people agree to before the first sample; null where nobody was asked. The words around it ship with the app. */
  consent: z._default(z.nullable(consent), null),
  swallow: z.enum(["swallow", "spit", "either"]),
  cleanser: line,
  pauseSeconds: count,
  retaste: z.boolean(),
  warmUp: z.boolean(),
  trays: z.array(blindTray),
  commitment: hash,
});
export type BlindPacket = z.infer<typeof blindPacket>;

/**
 * How many questions a tray of this packet has: one choice for each property, one mark for each sample and attribute, or
 * one portion for each code.
 */
export const questionsOf = (
  { line, chew, properties }: Pick<BlindPacket, "line" | "chew" | "properties">,
  { codes }: Pick<BlindTray, "codes">,
): number => (chew ? codes.length : line ? codes.length * line.attributes.length : Math.max(1, properties.length));

/** Can a tray be answered so? An order names each of its codes once. */
export function isAnswer(
  packet: Pick<BlindPacket, "method" | "noPreference">,
  tray: Pick<BlindTray, "codes">,
  answer: string,
): boolean {
  if (shapeOf(packet.method).answer !== "order") return answersOf(packet, tray).some((known) => known === answer);
  return [...tray.codes].sort().join(" ") === answer.split(" ").sort().join(" ");
}

/**
 * What may be answered to one question of a choice test, in the order in which a ballot shows it: codes in serving
 * order, then "none" if it is offered; or words. Empty for a ranking, which has an order, for the line scale, and where
 * portions are chewed.
 */
export function answersOf(
  { method, noPreference }: Pick<BlindPacket, "method" | "noPreference">,
  { codes }: Pick<BlindTray, "codes">,
): (string | AnswerWord)[] {
  switch (shapeOf(method).answer) {
    case "code":
      return noPreference ? [...codes, "none"] : [...codes];
    case "partner":
      return codes.slice(1);
    case "same-different":
      return ["same", "different"];
    case "a-not-a":
      return ["a", "not-a"];
    case "order":
    case "marks":
    case "portions":
      return [];
  }
}
