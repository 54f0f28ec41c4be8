import { beforeAll, describe, expect, test, vi } from "vitest";
import { resultOfRows } from "../../src/analysis/analyse-choice.ts";
import { resultOfKindRows } from "../../src/analysis/analyse-kinds.ts";
import { resultOfChoices } from "../../src/analysis/analyse-pair.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { readAnswers } from "../../src/archive/answer-rows.ts";
import { readChoices } from "../../src/archive/choice-rows.ts";
import { readKinds } from "../../src/archive/kind-rows.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { openParts } from "../../src/design/readiness.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { answersOf, blindPacket, questionsOf } from "../../src/model/packet.ts";
import { type Plan, plan as planSchema } from "../../src/model/plan.ts";
import { result as resultSchema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { answersText, dictionaryText } from "../../src/report/answer-file.ts";
import { type Opened, openedStudy } from "../../src/report/opened-study.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { openKey } from "../../src/seal/open.ts";
import { sealKey } from "../../src/seal/seal.ts";
import { report } from "../../src/words/en/report.ts";
import { lead, study, tablet, writer } from "../archive/scenario.ts";
import { choicePlans, preferencePlan, repeated } from "../design/scenario.ts";
import { type Drawn, drawnAnswers, expectedOf, howMany } from "./drawn-panel.ts";

// opening a key takes its time by design
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const saltier = { id: "6b1d8c29-e5ff-4d20-8b63-7f401b8d9e06", name: "Saltiness", comparative: "saltier" };
/** Every choice method and variant, those of two properties with two. */
const plans: [string, Plan][] = [
  ...choicePlans()
    .filter(([name]) => name !== "preference")
    .map(([name, plan]): [string, Plan] => {
      const [first] = plan.properties;
      const both = first && plan.properties.length === 1 ? [first, { ...first, ...saltier }] : plan.properties;
      return [name, { ...plan, properties: both }];
    }),
  ...(["not-offered", "dropped", "split", "three-way"] as const).map((noPreference): [string, Plan] => [
    `preference, none ${noPreference}`,
    preferencePlan({ noPreference }),
  ]),
];
const ways: [string, Plan][] = plans.flatMap(([name, plan]): [string, Plan][] => [
  [`${name}, one tray a person`, plan],
  [`${name}, two trays in one sitting`, repeated(plan, "one-sitting")],
  [`${name}, one tray in each of two sessions`, repeated(plan, "sessions")],
]);

const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };
const noSeal = { iv: "00".repeat(12), ciphertext: "", kdf: { rounds: 600_000, salt: "00".repeat(16) } };

type Way = { opened: Opened; drawn: Drawn[]; seatOf: Map<number, number> };

/** A study of the plan from lock to reveal, as the lead's device and one tablet write it. */
async function studyOf(given: Plan): Promise<Way> {
  const plan = read(planSchema, given);
  const { blind, key, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  // the slow seal once a method: with several trays a person it is the same one
  const once = plan.repeats === 1;
  const { sealed, opened } = once
    ? await sealKey(key, "anchor basket candle dolphin ember falcon garden hammer")
    : unsealed(withSalt(key));
  const packet = read(blindPacket, blindPacketOf(plan, study, blind, sealed.commitment));
  const { texts, write } = writer();
  write(lead, "study-locked", { plan, packet, sealed, seats, app: "test" });
  const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
  const drawn = drawnAnswers(
    plan,
    key.trays.filter(({ tray }) => planned.has(tray)),
    "panel",
  );
  for (const { tray, codes } of blind.filter(({ spare }) => !spare)) {
    const answers = drawn.filter((answer) => answer.tray === tray);
    expect(answers).toHaveLength(questionsOf(packet, { codes }));
    write(tablet, "tray-opened", { tray, clearance: packet.allergens.version });
    for (const { question, choice, guess } of answers) {
      expect(answersOf(packet, { codes })).toContain(choice);
      write(tablet, "answer-kept", { tray, question, choice, guess, elapsedMs: 9000, screen, salt: "5a".repeat(32) });
    }
    write(tablet, "tray-finished", { tray });
  }
  const heads = { [lead]: 1, [tablet]: texts.length - 1 };
  write(lead, "study-closed", { heads, knownUnsent: 0, note: "" });
  const again = once ? await openKey(sealed, "anchor basket candle dolphin ember falcon garden hammer") : opened;
  write(lead, "key-revealed", { heads: { ...heads, [lead]: 2 }, opened: again });
  const seatOf = new Map(seats.flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)));
  return { opened: { ...openedStudy(study, texts, 0, "test"), failure: null }, drawn, seatOf };
}

const unsealed = (opened: ReturnType<typeof withSalt>) => ({
  sealed: { v: 1 as const, study, commitment: commitmentOf(opened), ...noSeal },
  opened,
});

/** Every text in a value, however deep. */
const textsIn = (value: unknown): string[] => {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(textsIn) : [];
};

/** What each person did, by seat, whatever the order: two files may list people differently. */
const bySeat = <A>(rows: readonly A[], seat: (row: A) => string, counts: (row: A) => boolean): [string, number][] => {
  const people = new Map<string, number>();
  for (const row of rows) people.set(seat(row), (people.get(seat(row)) ?? 0) + (counts(row) ? 1 : 0));
  return [...people].toSorted(([one], [other]) => (one < other ? -1 : 1));
};

describe.each(ways)("%s", (_name, plan) => {
  let way: Way;
  beforeAll(async () => {
    way = await studyOf(plan);
  });
  const judgments = plan.people * plan.repeats;
  const people = plan.people;
  const seatName = ({ tray }: { tray: number }) => `seat-${way.seatOf.get(tray)}`;
  const file = () => answersText(way.opened, true);
  const first = () => way.drawn.filter(({ question }) => question === 1);

  test("nothing of the plan is open, and every answer counts", () => {
    expect(openParts(plan)).toEqual([]);
    const { record, missing } = way.opened;
    expect([record.keyMatches, missing, record.departures, record.notAnswered]).toEqual([true, 0, [], []]);
    expect(record.judgments).toHaveLength(way.drawn.length);
  });

  test("the result has the counts that were drawn", () => {
    const { result } = way.opened;
    expect(read(resultSchema, result)).toEqual(result);
    expect(result).toMatchObject(expectedOf(plan, way.drawn));
    expect(result).toMatchObject({ people });
    if (result.family !== "choice" && result.family !== "pair") return;
    const inSessions = plan.repeatsIn === "sessions";
    expect(result.sessions?.rows.length ?? 1).toBe(inSessions && plan.repeats > 1 ? 2 : 1);
    expect(result.panelists).toHaveLength(plan.repeats > 1 ? people : 0);
    for (const [at, { correct }] of result.questions.entries()) {
      expect(correct).toBe(howMany(way.drawn, result.family === "pair" ? "first" : "right", at + 1));
    }
  });

  test("each order is served equally often", () => {
    const served = way.opened.result.orders.map((order) => order.judgments);
    expect(new Set(served)).toEqual(new Set([judgments / served.length]));
  });

  test("the words are whole", () => {
    const said = describeResult(way.opened.result, report);
    expect(said.verdict).toMatch(/^[A-Z0-9“].{20,}\.$/s);
    const texts = textsIn(said);
    expect(texts.filter((text) => /undefined|NaN|\bnull\b|\[object|Infinity/.test(text))).toEqual([]);
  });

  test("its file is read back with the same answers, person by person, and the same p", () => {
    const { result } = way.opened;
    const text = file();
    expect(answersText(way.opened, false)).toBe(text);
    const given = { alpha: plan.alpha, confidence: plan.confidence };
    if (result.family === "choice") {
      const { answers } = readAnswers(text, "answers.csv");
      const rights = bySeat(first(), seatName, ({ meant }) => meant === "right");
      expect(
        bySeat(
          answers,
          ({ panelist }) => panelist,
          ({ correct }) => correct,
        ),
      ).toEqual(rights);
      const again = resultOfRows({ ...given, method: plan.method, goal: "difference" }, answers, "test");
      expect(again).toMatchObject({ people, judgments, correct: result.correct, pValue: result.pValue });
    } else if (result.family === "pair") {
      const { answers } = readChoices(text, "answers.csv");
      const firsts = bySeat(first(), seatName, ({ meant }) => meant === "first");
      const nones = bySeat(first(), seatName, ({ meant }) => meant === "none");
      expect(
        bySeat(
          answers,
          ({ panelist }) => panelist,
          ({ choice }) => choice === result.products[0],
        ),
      ).toEqual(firsts);
      expect(
        bySeat(
          answers,
          ({ panelist }) => panelist,
          ({ choice }) => choice === null,
        ),
      ).toEqual(nones);
      const { method, products, noPreference } = result;
      const again = resultOfChoices({ ...given, method, products, noPreference }, answers, "test");
      expect(again).toMatchObject({ people, counts: result.counts, tested: result.tested, pValue: result.pValue });
    } else if (result.family === "kinds") {
      const { answers } = readKinds(text, "answers.csv", result.method);
      const told = bySeat(first(), seatName, ({ meant }) => meant.endsWith("told"));
      const unlike = bySeat(first(), seatName, ({ meant }) => meant.startsWith("unlike"));
      expect(
        bySeat(
          answers,
          ({ panelist }) => panelist,
          (row) => row.told,
        ),
      ).toEqual(told);
      expect(
        bySeat(
          answers,
          ({ panelist }) => panelist,
          (row) => row.unlike,
        ),
      ).toEqual(unlike);
      const again = resultOfKindRows({ ...given, method: result.method }, answers, "test");
      expect(again).toMatchObject({ people, unlike: result.unlike, like: result.like, pValue: result.pValue });
    }
  });

  test("its dictionary names and explains every column", () => {
    const text = dictionaryText(way.opened, true, "answers.csv", "2026-05-03T16:00:00.000Z");
    const { resources } = JSON.parse(text) as { resources: { schema: { fields: Record<string, string>[] } }[] };
    const fields = resources[0]?.schema.fields ?? [];
    expect(fields.map(({ name }) => name)).toEqual(file().split("\r\n", 1)[0]?.split(","));
    expect(fields.filter(({ description = "" }) => description.length < 5 || /undefined/.test(description))).toEqual(
      [],
    );
  });
});
