import type { AskedAttribute } from "../model/attribute.ts";
import { sameMoment } from "../model/moments.ts";
import type { BlindPacket, BlindTray } from "../model/packet.ts";
import { sheetMm } from "./labels.ts";
import type { PaperSize } from "./use-print.ts";

/** One question of a line scale on paper: which sample, which property. */
export type PaperLine = { code: string; attribute: AskedAttribute };

/** One leaf of a ballot: an A5 half of a sheet, or a whole sheet on its side where the line is too long for that. `questions`: of a choice, places from 0. */
export type BallotLeaf = { tray: BlindTray; at: number; of: number; lines: PaperLine[]; questions: number[] };

/** Above this the line with its margins does not fit across an upright sheet. */
const longestUprightMm = 180;
/** Margins, head, box and foot of a leaf; one question with its line; a further line of its end words or its text. */
const headAndFootMm = 37;
/** How to answer, above the first question of a leaf, with the space below. */
const howMm = 6.3;
const questionMm = 23;
const endWordsLineMm = 4.6;
const askLineMm = 5.7;
/** Small print: its height, and how many characters go across; the same for the question and for an end word. */
const smallLineMm = 3.9;
const across = { small: 118, ask: 70, endWords: 26, steps: 88 };

export const isWide = ({ line }: Pick<BlindPacket, "line">): boolean => (line?.lengthMm ?? 0) > longestUprightMm;

const linesOf = (characters: number, width: number): number => Math.max(1, Math.ceil(characters / width));

/** Lines that a text takes, word by word; a word that is too long for a line is broken. */
function wrapped(text: string, width: number): number {
  let lines = 1;
  let left = width;
  for (const word of text.split(/\s+/)) {
    if (word.length > left && left < width) {
      lines += 1;
      left = width;
    }
    lines += linesOf(word.length, width) - 1;
    left -= word.length + 1;
  }
  return lines;
}

/** Room that a question needs, in millimeters: long words take more lines of text. */
export function heightMm({ adjective, form, lowAnchor, highAnchor, moment }: AskedAttribute): number {
  const ends =
    form.kind === "line"
      ? linesOf(Math.max(lowAnchor.length, highAnchor.length), across.endWords)
      : Math.max(...form.labels.map((label) => wrapped(label, Math.floor(across.steps / form.labels.length))));
  // around the word stand some 40 characters: "How … is sample 482 after 10 seconds of chewing?"; more at the end of the chew
  const ask = linesOf(adjective.length + (moment.at === "before-swallowing" ? 62 : 42), across.ask);
  return questionMm + (ends - 1) * endWordsLineMm + (ask - 1) * askLineMm;
}

/** Room for questions on a leaf below paragraphs of small print of so many characters each, in millimeters. */
export function roomMm(size: PaperSize, wide: boolean, paragraphs: readonly number[]): number {
  const { width, height } = sheetMm[size];
  const leaf = wide ? width : height / 2;
  const lines = paragraphs.reduce((sum, characters) => sum + linesOf(characters, across.small), 0);
  return leaf - headAndFootMm - howMm - lines * smallLineMm;
}

/**
 * The leaves of a study's backup ballots, tray by tray. A choice takes one; a line scale as many as its questions need,
 * sample after sample in serving order, within a sample in the order of the tablet.
 *
 * Takes    packet; size; print: characters of each paragraph of small print on the first leaf of a tray
 */
export function ballotLeaves(packet: BlindPacket, size: PaperSize, print: readonly number[]): BallotLeaf[] {
  const { line } = packet;
  if (line === null) return choiceLeaves(packet);
  const wide = isWide(packet);
  return packet.trays.flatMap((tray) => {
    const samples = tray.codes.map((code) => line.attributes.map((attribute) => ({ code, attribute })));
    const leaves = filled(samples, roomMm(size, wide, print), roomMm(size, wide, []), asksAlongChew(line.attributes));
    return leaves.map((lines, at) => ({ tray, at: at + 1, of: leaves.length, lines, questions: [] }));
  });
}

/** Questions of a choice on one leaf: with everything that is to be read and ticked two of them fill it. */
const mostOnLeaf = 2;

/** One leaf for one question; several with up to two on each, but the first, with its small print, holds one. */
function choiceLeaves(packet: BlindPacket): BallotLeaf[] {
  const places = Array.from({ length: Math.max(1, packet.properties.length) }, (_, at) => at);
  const leaves = [places.slice(0, 1)];
  for (let at = 1; at < places.length; at += mostOnLeaf) leaves.push(places.slice(at, at + mostOnLeaf));
  return packet.trays.flatMap((tray) =>
    leaves.map((questions, at) => ({ tray, at: at + 1, of: leaves.length, lines: [], questions })),
  );
}

/** Is a sample asked about at several moments of one chew? */
export const asksAlongChew = ([first, ...others]: readonly AskedAttribute[]): boolean =>
  first !== undefined && others.some(({ moment }) => !sameMoment(moment, first.moment));

/**
 * Lines on leaves. What is asked of one sample stays on one leaf where that holds it; else leaves are as full as their
 * room allows. A question that is higher than a leaf has one for itself.
 *
 * Takes    along: nobody turns a leaf in the middle of a chew, so the first leaf may be left to its small print
 */
function filled(samples: readonly PaperLine[][], firstRoom: number, room: number, along: boolean): PaperLine[][] {
  const leaves: PaperLine[][] = [[]];
  let left = firstRoom;
  const turn = (): void => {
    leaves.push([]);
    left = room;
  };
  for (const lines of samples) {
    const heights = lines.map(({ attribute }) => heightMm(attribute));
    const whole = heights.reduce((sum, height) => sum + height, 0);
    if (whole > left && whole <= room && (along || (leaves.at(-1)?.length ?? 0) > 0)) turn();
    for (const [at, line] of lines.entries()) {
      const height = heights[at] ?? 0;
      // the small print may leave no room at all: the first leaf then holds it alone
      const begun = leaves.length === 1 || (leaves.at(-1)?.length ?? 0) > 0;
      if (height > left && begun) turn();
      leaves.at(-1)?.push(line);
      left -= height;
    }
  }
  return leaves;
}
