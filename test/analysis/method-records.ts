import type { Plan } from "../../src/model/plan.ts";
import { type Judgment, type StudyRecord, studyRecord } from "../../src/model/record.ts";
import { read } from "../../src/model/schema.ts";
import { current, recordOf, steamed } from "./scenario.ts";

/** One tray of a study by hand: what was served in letters ("A:BA" with a reference cup), and what was answered. */
export type TrayByHand = {
  order: string;
  /** A place from 1 (its code was chosen), a word; several where several questions were asked. Left out: no answer. */
  answers?: readonly (number | Judgment["choice"])[];
  seat?: number;
  wave?: number;
};

const tablet = "44444444-4444-4444-8444-444444444444";
const productOf = (letter: string) => (letter === "A" ? current : letter === "B" ? steamed : letter);
/** Codes that tell nothing: by tray and place alone. */
export const codeAt = (tray: number, place: number): string => String(100 + ((tray * 7 + place * 31) % 900));

/** A closed and revealed record of these trays, numbered from 1; seats as the trays where none is given. */
export function recordByHand(planChange: Partial<Plan>, trays: readonly TrayByHand[]): StudyRecord {
  const base = recordOf(0, 0, {}, planChange);
  const keyed = trays.map(({ order }, at) => {
    const [served = "", reference = null] = order.split(":").reverse();
    const samples = [...served].map((letter, place) => ({
      code: codeAt(at + 1, place + 1),
      product: productOf(letter),
      batch: `batch ${at % 3}`,
    }));
    const cup = reference === null ? {} : { reference: { product: productOf(reference), batch: "batch of the cup" } };
    return { tray: at + 1, order, samples, ...cup };
  });
  const judgments = trays.flatMap(({ answers = [], seat, wave = 1 }, at) =>
    answers.map((answer, question) => ({
      tray: at + 1,
      seat: seat ?? at + 1,
      wave,
      device: tablet,
      question: question + 1,
      choice: typeof answer === "number" ? codeAt(at + 1, answer) : answer,
      guess: false,
    })),
  );
  return read(studyRecord, {
    ...base,
    packet: {
      ...base.packet,
      trays: keyed.map(({ tray, samples }, at) => ({
        tray,
        wave: trays[at]?.wave ?? 1,
        spare: false,
        codes: samples.map(({ code }) => code),
      })),
    },
    opened: { ...base.opened, key: { ...base.opened.key, trays: keyed } },
    judgments,
  });
}

/** The list, one after the other, so often. */
export const cycle = <T>(list: readonly T[], times: number): T[] =>
  Array.from({ length: times }, (_, at) => list[at % list.length]).filter((one) => one !== undefined);

/** A property of the kitchen's: "Which sample is juicier?", with new expected unless something else is said. */
export const property = (
  name: string,
  change: Partial<Plan["properties"][number]> = {},
): Plan["properties"][number] => ({
  id: `66666666-6666-4666-8666-${name.length.toString().padStart(12, "0")}`,
  name,
  comparative: `more ${name}`,
  definition: "",
  expected: steamed,
  inFamily: true,
  ...change,
});
