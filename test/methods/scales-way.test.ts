import { beforeAll, describe, expect, test } from "vitest";
import { resultOfRankRows } from "../../src/analysis/analyse-rank.ts";
import { resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { readRanks } from "../../src/archive/rank-rows.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { openParts } from "../../src/design/readiness.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { blindPacket } from "../../src/model/packet.ts";
import { type Plan, plan as planSchema } from "../../src/model/plan.ts";
import { result as resultSchema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { placeOfStep } from "../../src/model/steps.ts";
import { answersText, dictionaryText } from "../../src/report/answer-file.ts";
import { type Opened, openedStudy } from "../../src/report/opened-study.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { report } from "../../src/words/en/report.ts";
import { lead, study, tablet, writer } from "../archive/scenario.ts";
import { linePlan, rankingPlan, repeated, stepsPlan } from "../design/scenario.ts";

/*
 * Scales and rankings their whole way, from plan to file and back. What each person perceives is made here, product by
 * product, so that means, counts and rank sums are known beforehand.
 */

/** How far up its scale a person finds a product, from 0 to 1: products lie apart, people and properties a little. */
const perceived = (seat: number, product: number, attribute: number): number =>
  0.2 + 0.15 * product + 0.04 * ((seat * 7 + product * 3 + attribute * 5) % 6);

/** The step nearest to it; of just right, from 1. */
const stepOf = (value: number, of: number): number => 1 + Math.round(value * (of - 1));

const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };
const noSeal = { iv: "00".repeat(12), ciphertext: "", kdf: { rounds: 600_000, salt: "00".repeat(16) } };

function studyOf(given: Plan): Opened {
  const plan = read(planSchema, given);
  const { blind, key, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const opened = withSalt(key);
  const sealed = { v: 1 as const, study, commitment: commitmentOf(opened), ...noSeal };
  const packet = read(blindPacket, blindPacketOf(plan, study, blind, sealed.commitment));
  const { texts, write } = writer();
  write(lead, "study-locked", { plan, packet, sealed, seats, app: "test" });
  const seatOf = new Map(seats.flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)));
  const productAt = (tray: number, code: string): number => {
    const held = key.trays.find((each) => each.tray === tray)?.samples.find((sample) => sample.code === code)?.product;
    return plan.products.findIndex(({ id }) => id === held);
  };
  for (const { tray, codes } of blind.filter(({ spare }) => !spare)) {
    const seat = seatOf.get(tray) ?? 0;
    write(tablet, "tray-opened", { tray, clearance: packet.allergens.version });
    if (plan.method === "ranking") {
      const inOrder = codes.toSorted(
        (one, other) => perceived(seat, productAt(tray, one), 0) - perceived(seat, productAt(tray, other), 0),
      );
      const answer = { question: 1, choice: inOrder.join(" "), guess: false, elapsedMs: 9000 };
      write(tablet, "answer-kept", { tray, ...answer, screen, salt: "5a".repeat(32) });
    }
    const asked = packet.line?.attributes ?? [];
    codes.forEach((code, place) => {
      asked.forEach(({ id, form }, at) => {
        const value = perceived(seat, productAt(tray, code), at);
        const steps = form.kind === "line" ? 0 : form.labels.length;
        const fraction = form.kind === "line" ? value : placeOfStep(stepOf(value, steps), steps);
        write(tablet, "mark-kept", {
          ...{ tray, question: place * asked.length + at + 1, code, attribute: id, why: null, hidden: false },
          mark: { fraction, start: "pointer", moves: 0, firstMs: 900 },
          line: form.kind === "line" ? { lengthPx: 600, lengthMm: plan.scale.lengthMm } : null,
          chewedSeconds: form.kind === "line" ? 10.1 : 12,
          ...{ elapsedMs: 2000, screen, salt: "5a".repeat(32) },
        });
      });
    });
    write(tablet, "tray-finished", { tray });
  }
  const heads = { [lead]: 1, [tablet]: texts.length - 1 };
  write(lead, "study-closed", { heads, knownUnsent: 0, note: "" });
  write(lead, "key-revealed", { heads: { ...heads, [lead]: 2 }, opened });
  return { ...openedStudy(study, texts, 0, "test"), failure: null };
}

/** Every text in a value, however deep. */
const textsIn = (value: unknown): string[] => {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(textsIn) : [];
};

const ways: [string, Plan][] = [
  ["a line", linePlan()],
  ["a line, two trays a person", repeated(linePlan(), "one-sitting")],
  ["steps, liking and just right", stepsPlan()],
  ["a ranking", rankingPlan()],
];

describe.each(ways)("%s", (_name, plan) => {
  let way: Opened;
  beforeAll(() => {
    way = studyOf(plan);
  });
  const seats = Array.from({ length: plan.people }, (_, at) => at + 1);

  test("nothing of the plan is open, nothing is missing, and the key fits", () => {
    expect(openParts(plan)).toEqual([]);
    const { record, missing } = way;
    expect([record.keyMatches, missing, record.departures, record.notAnswered]).toEqual([true, 0, [], []]);
    expect(read(resultSchema, way.result)).toEqual(way.result);
  });

  test("means, counts and rank sums are those that were put in", () => {
    const { result } = way;
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    if (result.family === "rank") {
      const sumOf = (product: number) =>
        seats.reduce((sum, seat) => {
          const own = plan.products.map((_, other) => perceived(seat, other, 0));
          return sum + 1 + own.filter((value) => value < (own[product] ?? 0)).length;
        }, 0);
      expect(result.sums.map(({ sum }) => sum)).toEqual(plan.products.map((_, product) => sumOf(product)));
      return;
    }
    if (result.family !== "scale") throw new Error("neither a scale nor a ranking");
    result.attributes.forEach((attribute, at) => {
      const form = plan.scale.attributes[at]?.form ?? { kind: "line" };
      plan.products.forEach((_, product) => {
        const values = seats.map((seat) => perceived(seat, product, at));
        if (form.kind === "line") expect(attribute.means[product]?.estimate).toBeCloseTo(100 * mean(values), 10);
        else {
          const steps = values.map((value) => stepOf(value, form.labels.length));
          const counts = form.labels.map((_, step) => steps.filter((chosen) => chosen === step + 1).length);
          const found = attribute.justRight?.products[product]?.counts ?? attribute.distribution?.[product]?.counts;
          expect(found).toEqual(counts);
        }
      });
    });
    expect(result.attributes).toHaveLength(plan.scale.attributes.length);
  });

  test("the words are whole", () => {
    const said = describeResult(way.result, report);
    expect(said.verdict).toMatch(/^[A-Z0-9“].{20,}\.$/s);
    expect(textsIn(said).filter((text) => /undefined|NaN|\bnull\b|\[object|Infinity/.test(text))).toEqual([]);
  });

  test("its file is read back and gives the same F or chi-square and p", () => {
    const { result } = way;
    const text = answersText(way, true);
    if (result.family === "rank") {
      const { answers } = readRanks(text, "answers.csv");
      const names = plan.ranking.predicted.map((id) => plan.products.find((product) => product.id === id)?.name ?? "");
      const again = resultOfRankRows({ alpha: plan.alpha, predicted: names }, answers, "test");
      expect(again.family === "rank" && again.page?.pValue).toBe(result.page?.pValue);
      expect(again.friedman?.chiSquare).toBe(result.friedman?.chiSquare);
      return;
    }
    if (result.family !== "scale") throw new Error("neither a scale nor a ranking");
    const again = resultOfScaleRows(plan.alpha, readScale(text, "answers.csv").answers, "test");
    result.attributes.forEach(({ attribute, blocks, justRight }) => {
      const other = again.attributes.find((each) => each.attribute === attribute);
      expect(other).toBeDefined();
      expect(other?.justRight?.products.map(({ counts }) => counts)).toEqual(
        justRight?.products.map(({ counts }) => counts),
      );
      // marks go into the file in hundredths of a point at least, and steps whole
      expect(other?.blocks?.fValue ?? 0).toBeCloseTo(blocks?.fValue ?? 0, 6);
      expect(other?.blocks?.pValue ?? 0).toBeCloseTo(blocks?.pValue ?? 0, 8);
    });
  });

  test("its dictionary names and explains every column", () => {
    const text = dictionaryText(way, true, "answers.csv", "2026-05-03T16:00:00.000Z");
    const { resources } = JSON.parse(text) as { resources: { schema: { fields: Record<string, string>[] } }[] };
    const fields = resources[0]?.schema.fields ?? [];
    const [head = ""] = answersText(way, true).split("\r\n", 1);
    expect(fields.map(({ name }) => name)).toEqual(head.split(","));
    expect(fields.every(({ description = "" }) => description.length >= 5)).toBe(true);
  });
});
