import type { AskedAttribute } from "../../model/attribute.ts";
import { noMarkReasons } from "../../model/ballot-event.ts";
import { shapeOf } from "../../model/method.ts";
import { type BlindPacket, type BlindTray, isAnswer, questionsOf } from "../../model/packet.ts";
import type { PaperTyped } from "../../model/paper-event.ts";

/** What is typed in of one ballot, as it stands on the form, and what it says. */

export type Reason = (typeof noMarkReasons)[number];
export const reasons: readonly Reason[] = noMarkReasons;

/** One question on the form; all empty to begin with. */
export type Entry = {
  /** Of a choice or of steps: the answer, the step's number, `cannotPick` or `emptyPick`; empty: nothing said yet. */
  picked: string;
  guess: boolean;
  /** Of a ranking: what is written into each code's box. */
  places: Readonly<Record<string, string>>;
  /** Of a line: as typed. */
  mm: string;
  /** Of a scale: "I cannot judge this" is ticked, and why as far as it is written. */
  why: Reason | null;
};
export const blankEntry: Entry = { picked: "", guess: false, places: {}, mm: "", why: null };
/** "I cannot answer", as a choice has it. */
export const cannotPick = "cannot";
/** Nothing is ticked on the paper, and somebody said so. */
export const emptyPick = "empty";

export type Form = {
  consent: boolean;
  cleared: boolean;
  lineMm: string;
  /** By question, from 1. */
  entries: Readonly<Record<number, Entry>>;
};
export const blankForm: Form = { consent: false, cleared: false, lineMm: "", entries: {} };
export const entryOf = ({ entries }: Form, question: number): Entry => entries[question] ?? blankEntry;

type Tray = Pick<BlindTray, "tray" | "codes">;

/** Every question of a tray of a scale, in the order of the paper. */
export type Asked = { question: number; code: string; attribute: AskedAttribute };
export const askedOf = ({ line }: BlindPacket, { codes }: Tray): Asked[] =>
  codes.flatMap((code, at) =>
    (line?.attributes ?? []).map((attribute, place, { length }) => ({
      question: at * length + place + 1,
      code,
      attribute,
    })),
  );

export type WrongWhat = "length-missing" | "length-odd" | "no-millimeters" | "beyond" | "both" | "order";
/** Something that cannot stand so: of a question, or of the lines' length. */
export type Wrong = { at: number | "length"; what: WrongWhat };

export type Said = Pick<PaperTyped, "clearance" | "consent" | "stopped" | "lineMm" | "choices" | "marks">;
export type Reading = {
  wrong: Wrong[];
  /** Questions without any answer, of which nobody said that the paper has none. */
  empty: number[];
  cleared: boolean;
  said: Said;
};

/** Lengths that a printed line can have: half to one and a half of what is planned. */
export const lengthRange = (planned: number): { least: number; most: number } => ({
  least: Math.round(planned / 2),
  most: Math.round(planned * 1.5),
});

/** The form as an event would say it. Where a box at the head is not ticked, no answer is taken over. */
export function readForm(form: Form, packet: BlindPacket, tray: Tray): Reading {
  const cleared = form.cleared && (packet.consent === null || form.consent);
  const ticks = {
    clearance: form.cleared ? packet.allergens.version : null,
    consent: form.consent ? (packet.consent?.version ?? null) : null,
  };
  if (!cleared) {
    const said: Said = { ...ticks, stopped: "not-cleared", lineMm: null, choices: [], marks: [] };
    return { wrong: [], empty: [], cleared, said };
  }
  const { wrong, ...read } = packet.line ? readMarks(form, packet, tray) : readChoices(form, packet, tray);
  const answered = new Set([...read.choices, ...read.marks].map(({ question }) => question));
  const flawed = new Set(wrong.map(({ at }) => at));
  const all = Array.from({ length: questionsOf(packet, tray) }, (_, at) => at + 1);
  const saidEmpty = (question: number) => entryOf(form, question).picked === emptyPick;
  const empty = all.filter((question) => !answered.has(question) && !flawed.has(question) && !saidEmpty(question));
  const stopped = read.choices.some(({ choice }) => choice === null) ? ("cannot-answer" as const) : null;
  return { wrong, empty, cleared, said: { ...ticks, stopped, ...read } };
}

type Read = Pick<Said, "lineMm" | "choices" | "marks"> & { wrong: Wrong[] };

function readChoices(form: Form, packet: BlindPacket, tray: Tray): Read {
  const read: Read = { lineMm: null, choices: [], marks: [], wrong: [] };
  for (let question = 1; question <= questionsOf(packet, tray); question += 1) {
    const { picked, guess, places } = entryOf(form, question);
    if (picked === cannotPick) read.choices.push({ question, choice: null, guess: false });
    else if (shapeOf(packet.method).answer === "order") {
      const order = orderOf(tray.codes, places);
      if (order === "wrong") read.wrong.push({ at: question, what: "order" });
      else if (order !== null) read.choices.push({ question, choice: order, guess: false });
    } else if (isAnswer(packet, tray, picked)) {
      read.choices.push({ question, choice: picked as NonNullable<Said["choices"][number]["choice"]>, guess });
    }
  }
  return read;
}

/** The codes by the places that are written in their boxes; null where all are empty. */
function orderOf(codes: readonly string[], places: Readonly<Record<string, string>>): string | "wrong" | null {
  const written = codes.map((code) => places[code] ?? "");
  if (written.every((place) => place === "")) return null;
  const inOrder = codes.map((_, at) => codes[written.indexOf(String(at + 1))]);
  return inOrder.every((code) => code !== undefined) ? inOrder.join(" ") : "wrong";
}

function readMarks(form: Form, packet: BlindPacket, tray: Tray): Read {
  const read: Read = { lineMm: null, choices: [], marks: [], wrong: [] };
  const planned = packet.line?.lengthMm ?? 0;
  const length = wholeOf(form.lineMm);
  const { least, most } = lengthRange(planned);
  const odd = form.lineMm.trim() !== "" && (length === null || length < least || length > most);
  for (const { question, code, attribute } of askedOf(packet, tray)) {
    const entry = entryOf(form, question);
    const ticked = entry.picked === emptyPick ? "" : entry.picked;
    const given = attribute.form.kind === "line" ? entry.mm.trim() : ticked;
    if (given === "" && entry.why === null) continue;
    if (given !== "" && entry.why !== null) {
      read.wrong.push({ at: question, what: "both" });
      continue;
    }
    const of = { question, code, attribute: attribute.id, mm: null, step: null, why: entry.why };
    if (given === "") read.marks.push(of);
    else if (attribute.form.kind !== "line") read.marks.push({ ...of, step: Number(given) });
    else {
      const mm = wholeOf(given);
      if (mm === null) read.wrong.push({ at: question, what: "no-millimeters" });
      else if (length !== null && !odd && mm > length) read.wrong.push({ at: question, what: "beyond" });
      else read.marks.push({ ...of, mm });
    }
  }
  const strokes = read.marks.some(({ mm }) => mm !== null);
  if (odd) read.wrong.unshift({ at: "length", what: "length-odd" });
  else if (strokes && length === null) read.wrong.unshift({ at: "length", what: "length-missing" });
  return { ...read, lineMm: strokes ? length : null };
}

/** Whole millimeters as typed; null for anything else. */
function wholeOf(typed: string): number | null {
  return /^\d{1,3}$/.test(typed.trim()) ? Number(typed.trim()) : null;
}
