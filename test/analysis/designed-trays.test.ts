import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Key } from "../../src/model/key.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type Judgment, type StudyRecord, studyRecord } from "../../src/model/record.ts";
import { type Result, result as schema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { readyPlan } from "../design/scenario.ts";
import { property } from "./method-records.ts";
import { drawnTrays, emptyRecord } from "./study-records.ts";

/** Trays drawn as for a real study, answered by people who always know, and by people who never do. */
type KeyTray = Key["trays"][number];
type Answer = (tray: KeyTray, question: number) => Judgment["choice"];

function answered(changes: Partial<Plan>, answer: Answer): StudyRecord {
  const plan = readyPlan(changes);
  const empty = emptyRecord(plan);
  const { key } = empty.opened;
  const { seats } = drawnTrays(plan);
  const seatOf = new Map(seats.flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)));
  const questions = Math.max(1, plan.properties.length);
  const judgments = empty.packet.trays
    .filter(({ spare }) => !spare)
    .flatMap(({ tray, wave }) =>
      Array.from({ length: questions }, (_, question) => {
        const keyed = key.trays.find((one) => one.tray === tray);
        if (!keyed) throw new Error(`the key lacks tray ${tray}`);
        const choice = answer(keyed, question);
        return {
          tray,
          seat: seatOf.get(tray) ?? 0,
          wave,
          device: "33333333-3333-4333-8333-333333333333",
          question: question + 1,
          choice,
          guess: false,
        };
      }),
    );
  return read(studyRecord, { ...empty, judgments });
}

const [first, second] = readyPlan().products.map(({ id }) => id);
const times = ({ samples }: KeyTray, product: string | undefined) =>
  samples.filter((sample) => sample.product === product).length;
const codeOf = ({ samples }: KeyTray, product: string | undefined, after = -1) =>
  samples.find((sample, at) => at > after && sample.product === product)?.code ?? "";

const asked = { properties: [property("Juiciness", { expected: second ?? null })] };
const knowing: [string, Partial<Plan>, Answer][] = [
  ["triangle", { method: "triangle" }, (tray) => codeOf(tray, times(tray, first) === 1 ? first : second)],
  [
    "duo-trio with balanced reference",
    { method: "duo-trio", reference: { kind: "balanced", product: null } },
    (tray) => codeOf(tray, tray.reference?.product),
  ],
  [
    "duo-trio with constant reference",
    { method: "duo-trio", reference: { kind: "constant", product: first ?? null } },
    (tray) => codeOf(tray, first),
  ],
  ["paired difference", { method: "paired-difference", ...asked }, (tray) => codeOf(tray, second)],
  ["three alternatives", { method: "three-alternative", ...asked }, (tray) => codeOf(tray, second)],
  ["tetrad", { method: "tetrad" }, (tray) => codeOf(tray, tray.samples[0]?.product, 0)],
  [
    "same-different",
    { method: "same-different", dPrimeSought: 1.5 },
    (tray) => (times(tray, first) === 1 ? "different" : "same"),
  ],
  [
    "A-not-A",
    { method: "a-not-a", dPrimeSought: 1.5, reference: { kind: "constant", product: first ?? null } },
    (tray) => (times(tray, first) === 1 ? "a" : "not-a"),
  ],
  ["paired preference", { method: "paired-preference", noPreference: "dropped" }, (tray) => codeOf(tray, second)],
  [
    "paired difference, two-sided",
    { method: "paired-difference", sides: "two", ...asked },
    (tray) => codeOf(tray, second),
  ],
];
/** The other answer where there are two, another code elsewhere. */
const not =
  (answer: Answer): Answer =>
  (tray, question) => {
    const choice = answer(tray, question);
    const turned: Record<string, Judgment["choice"]> = {
      same: "different",
      different: "same",
      a: "not-a",
      "not-a": "a",
    };
    // the partner of a tetrad's first sample is another than the first itself
    return turned[choice] ?? tray.samples.findLast(({ code }) => code !== choice)?.code ?? "";
  };
const share = (found: Result): number =>
  found.family === "choice"
    ? found.correct / found.judgments
    : found.family === "pair"
      ? found.counts.second / found.judgments
      : found.family === "kinds"
        ? (found.unlike.told + found.like.of - found.like.told) / found.judgments
        : Number.NaN;

describe.each(knowing)("%s", (_name, plan, answer) => {
  test("people who always know are right on every tray, those who never do on none", () => {
    const [known, missed] = [analyse(answered(plan, answer), "1"), analyse(answered(plan, not(answer)), "1")];
    for (const found of [known, missed]) expect(z.safeParse(schema, found).success).toBe(true);
    expect([share(known), share(missed)]).toEqual([1, 0]);
    expect(known.outcome).toBe("reached");
    const all = known.family === "scale" ? 0 : known.judgments;
    expect(all).toBe(readyPlan(plan).people);
    expect(known.orders.reduce((sum, { judgments }) => sum + judgments, 0)).toBe(all);
    expect(known.caveats.map(({ what }) => what)).not.toContain("orders-uneven");
  });
  test("three trays a person in one sitting: people are known, and none is taken for several", () => {
    const found = analyse(answered({ ...plan, repeats: 3, repeatsIn: "one-sitting" }, answer), "1");
    if (found.family === "scale" || found.family === "portions") throw new Error("no choices here");
    const { people } = readyPlan(plan);
    expect([found.people, found.judgments]).toEqual([people, people * 3]);
    expect(found.panelists).toHaveLength(people);
    expect(found.outcome).toBe("reached");
    expect(found.caveats.map(({ what }) => what)).toContain(
      found.family === "choice" ? "repeats-pooled" : "people-compared",
    );
    expect(found.caveats.map(({ what }) => what)).not.toContain("below-plan");
  });
});

test("two sessions of the same people: one tray each in either, pooled, with the check that sessions agree", () => {
  const waves = ["Monday", "Tuesday"].flatMap((session) =>
    readyPlan().waves.map((wave, at) => ({
      ...wave,
      id: `${wave.id.slice(0, -2)}${session === "Monday" ? "1" : "2"}${at}`,
      session,
    })),
  );
  const [, , answer] = knowing[0] ?? [];
  if (!answer) throw new Error("a triangle comes first");
  const onMonday = new Set<number>();
  const record = answered({ method: "triangle", repeats: 2, repeatsIn: "sessions", waves }, (tray, question) => {
    const mondays = onMonday.size < 24;
    if (mondays) onMonday.add(tray.tray);
    return mondays ? answer(tray, question) : not(answer)(tray, question);
  });
  const found = analyse(record, "1");
  if (found.family !== "choice") throw new Error("a triangle is a choice");
  expect(found).toMatchObject({ people: 24, judgments: 48, correct: 24 });
  expect(found.sessions?.rows.map(({ session, judgments }) => [session, judgments])).toEqual([
    ["Monday", 24],
    ["Tuesday", 24],
  ]);
  // everybody was right in the one session and wrong in the other: 24 of 24 and 0 of 24, two such tables of C(48, 24)
  const ways = Array.from({ length: 24 }, (_, at) => (48 - at) / (24 - at)).reduce(
    (product, factor) => product * factor,
    1,
  );
  expect((found.sessions?.pValue ?? 0) * ways).toBeCloseTo(2, 8);
  expect(found.caveats.map(({ what }) => what)).toContain("sessions-differ");
  // each of 24 people is right once: as alike as can be
  expect(found.betaBinomial?.overdispersion.estimate).toBe(0);
  expect(found.betaBinomial?.pValue).toBe(1);
});
