import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { noPreferenceChoice } from "../../src/model/ballot-event.ts";
import { askedAttributes } from "../../src/model/moments.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type KeptMark, type StudyRecord, studyRecord } from "../../src/model/record.ts";
import { read } from "../../src/model/schema.ts";

/** Closed and revealed records of a preference and a line scale at Quillmere Kitchen, with trays drawn as for a real study. */

const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const tablet = "33333333-3333-4333-8333-333333333333";
const hash = "a1f309c277be".padEnd(64, "0");

export type Picked = "first" | "second" | "none";

/** The trays of a plan, the same at each call. */
export const drawnTrays = (plan: Plan) => makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });

/** A closed and revealed study of a plan that nobody answered. */
export function emptyRecord(plan: Plan) {
  const { blind, key } = drawnTrays(plan);
  return {
    study,
    plan,
    packet: blindPacketOf(plan, study, blind, hash),
    opened: { key, salt: "00ff" },
    keyMatches: true,
    commitment: hash,
    app: "1.0.0",
    lockedAt: "2026-05-03T08:00:00.000Z",
    closedAt: "2026-05-03T12:40:00.000Z",
    revealedAt: "2026-05-03T12:41:00.000Z",
    judgments: [],
    marks: [],
    portions: [],
    notAnswered: [],
    departures: [],
    otherBatches: [],
    temperatures: [],
  };
}

/** Tray t of the plan's people is answered as `picked` says; seats are numbered as trays. */
export function preferenceRecord(
  plan: Plan,
  picked: readonly Picked[],
  change: Partial<StudyRecord> = {},
): StudyRecord {
  const record = emptyRecord(plan);
  const judgments = picked.map((what, at) => {
    const { tray, samples } = record.opened.key.trays[at] ?? { tray: 0, samples: [] };
    const wanted = plan.products[what === "first" ? 0 : 1]?.id;
    const code = samples.find(({ product }) => product === wanted)?.code ?? "";
    return {
      tray,
      seat: tray,
      wave: 1,
      device: tablet,
      choice: what === "none" ? noPreferenceChoice : code,
      guess: false,
    };
  });
  return read(studyRecord, { ...record, judgments, ...change });
}

/** So many of each, firsts first. */
export const votes = (first: number, second: number, none: number): Picked[] => [
  ...new Array<Picked>(first).fill("first"),
  ...new Array<Picked>(second).fill("second"),
  ...new Array<Picked>(none).fill("none"),
];

/** Marks of one panelist: for each attribute, at each of its moments, one for each product of the plan, in points; null: could not judge; left out: never asked. */
export type Marks = (number | null | undefined)[][];

/** Seat s (from 1, as the trays are numbered) marks as `people[s - 1]` says. */
export function lineRecord(
  plan: Plan,
  people: readonly Marks[],
  change: Partial<StudyRecord> = {},
  screen: (seat: number) => Partial<KeptMark> = () => ({}),
): StudyRecord {
  const record = emptyRecord(plan);
  const marks = people.flatMap((own, at) => {
    const { tray, samples } = record.opened.key.trays[at] ?? { tray: 0, samples: [] };
    return samples.flatMap(({ code, product }) =>
      askedAttributes(plan.scale.attributes).flatMap((attribute, place): KeptMark[] => {
        const points = own[place]?.[plan.products.findIndex(({ id }) => id === product)];
        if (points === undefined) return [];
        const mark: KeptMark = {
          tray,
          seat: tray,
          wave: 1,
          device: tablet,
          code,
          attribute: attribute.id,
          fraction: points === null ? null : points / 100,
          why: points === null ? "not-perceived" : null,
          lengthMm: plan.scale.lengthMm,
          lengthPx: 640,
          pointer: "touch",
          chewedSeconds: attribute.moment.at === "after" ? attribute.moment.seconds + 0.2 : null,
          hidden: false,
          elapsedMs: 4000,
          paper: false,
        };
        return [{ ...mark, ...screen(tray) }];
      }),
    );
  });
  return read(studyRecord, { ...record, marks, ...change });
}

/** The invented marks of the kitchen's third study: juiciness after ten seconds of current, new and rested, one row a person. */
export const juicinessMarks: readonly (readonly number[])[] = [
  [58.4, 64.0, 67.1],
  [40.6, 40.8, 59.6],
  [51.4, 52.7, 64.1],
  [45.2, 57.4, 61.7],
  [56.9, 63.9, 60.6],
  [53.7, 47.4, 80.3],
  [47.8, 70.0, 54.9],
  [48.7, 75.5, 55.8],
  [28.5, 47.3, 51.9],
  [40.8, 56.0, 51.8],
  [52.8, 72.8, 62.9],
  [31.4, 51.2, 45.5],
];
