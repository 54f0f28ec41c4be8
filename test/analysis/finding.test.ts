import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { judgePrediction } from "../../src/analysis/claim-rules.ts";
import { questionsFor } from "../../src/analysis/finding.ts";
import { findingOf } from "../../src/analysis/finding-of.ts";
import type { Attachment, MeasureKind } from "../../src/model/claim.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type StudyRecord, studyRecord } from "../../src/model/record.ts";
import { read } from "../../src/model/schema.ts";
import { juicier, juiciness, linePlan, preferencePlan, rankingPlan, readyPlan, rested } from "../design/scenario.ts";
import { attachmentOf } from "../log/claim-example.ts";
import { recordByHand } from "./method-records.ts";
import { current, recordOf, steamed } from "./scenario.ts";
import { emptyRecord, juicinessMarks, lineRecord, preferenceRecord, votes } from "./study-records.ts";

/** Numbers "as printed" are those of the invented kitchen's scenario, computed with other programs when it was thought up. */

const find = (record: StudyRecord, kind: MeasureKind, changes: Partial<Attachment> = {}) =>
  findingOf(analyse(record, "test"), record.plan, attachmentOf({ study: record.study, ...changes }), kind);

describe("a preference: 60 diners, current 19, new 31, none 10; two-sided p = 0.119 and 62 % (47 to 75 %) as printed", () => {
  const plan = preferencePlan({ people: 60, waves: preferencePlan().waves.map((wave) => ({ ...wave, people: 30 })) });
  const record = preferenceRecord(plan, votes(19, 31, 10));
  const [one, two] = plan.products;

  test("nothing is shown, with the votes for the second product and their interval", () => {
    const finding = find(record, "preference");
    expect(finding).toMatchObject({ found: "not-shown", why: null, reach: null });
    const numbers = finding.numbers?.what === "picked" ? finding.numbers : null;
    expect(numbers).toMatchObject({ product: "new", picked: 31, of: 50, chance: 0.5 });
    expect([numbers?.share.estimate, numbers?.share.low, numbers?.share.high].map((x) => x?.toFixed(2))).toEqual([
      "0.62",
      "0.47",
      "0.75",
    ]);
  });

  test("read the other way round it is the other share", () => {
    const { numbers } = find(record, "preference", { first: two?.id ?? null, second: one?.id ?? null });
    expect(numbers).toMatchObject({ product: "current", picked: 19, of: 50 });
    expect(numbers?.what === "picked" ? numbers.share.low?.toFixed(2) : "").toBe("0.25");
  });

  test("42 of 50 for the second is higher; the key that does not match its seal takes the verdict back", () => {
    const clear = preferenceRecord(plan, votes(8, 42, 10));
    expect(find(clear, "preference").found).toBe("higher");
    expect(find({ ...clear, keyMatches: false }, "preference")).toMatchObject({ found: "no-verdict", why: "withheld" });
  });

  test("it measures no intensity, and has no factors", () => {
    expect(find(record, "intensity")).toMatchObject({ found: "no-verdict", why: "other-kind" });
    expect(find(record, "preference", { effect: "interaction" })).toMatchObject({ why: "not-compared" });
  });
});

describe("a line scale: new less current 11.9, rest adds 1.4 as printed", () => {
  const marks = juicinessMarks.map((row) => [row.slice()]);
  const record = lineRecord(linePlan(), marks);
  const plan = record.plan;
  const [, second] = plan.products;

  test("the pair that was named, in its direction, at the interval of all pairs together", () => {
    const finding = find(record, "intensity");
    expect(finding.found).toBe("higher");
    const numbers = finding.numbers?.what === "points" ? finding.numbers : null;
    expect(numbers?.estimate?.toFixed(1)).toBe("11.9");
    expect(numbers?.low).toBeGreaterThan(0);
    const [one, other] = plan.products;
    const turned = find(record, "intensity", { first: other?.id ?? null, second: one?.id ?? null });
    expect(turned.found).toBe("lower");
    const back = turned.numbers?.what === "points" ? turned.numbers : null;
    expect([back?.estimate, back?.low, back?.high]).toEqual([
      -(numbers?.estimate ?? 0),
      -(numbers?.high ?? 0),
      -(numbers?.low ?? 0),
    ]);
  });

  test("what is not shown contradicts a prediction only where what matters was locked and is out of reach", () => {
    const pair = { first: second?.id ?? null, second: rested };
    const finding = find(record, "intensity", pair);
    expect(finding).toMatchObject({ found: "not-shown", reach: null });
    expect(finding.numbers?.what === "points" ? finding.numbers.estimate?.toFixed(1) : "").toBe("1.4");
    expect(judgePrediction("higher", finding)).toEqual({ judgment: "allowed", because: "not-shown" });
    const sought = { difference: 30, deviation: 8, seenDeviation: null, from: "a guess" };
    const large = find(lineRecord(linePlan({ scaleSought: sought }), marks), "intensity", pair);
    expect(judgePrediction("higher", large)).toEqual({ judgment: "contradicted", because: "excluded" });
  });

  test("five people give numbers and no verdict; a further property is looked at beside the question", () => {
    expect(find(lineRecord(linePlan(), marks.slice(0, 5)), "intensity")).toMatchObject({
      found: "no-verdict",
      why: "too-few",
    });
    const [attribute] = linePlan().scale.attributes;
    if (!attribute) throw new Error("no attribute");
    const tender = { ...attribute, id: rested, name: "Tenderness" };
    const both = linePlan({ scale: { lengthMm: 120, attributes: [attribute, tender] } });
    const twice = lineRecord(
      both,
      juicinessMarks.map((row) => [row.slice(), row.slice()]),
    );
    expect(find(twice, "intensity", { question: juiciness }).found).toBe("higher");
    const beside = find(twice, "intensity", { question: rested });
    expect(beside).toMatchObject({ found: "no-verdict", why: "exploratory" });
    expect(beside.numbers?.what).toBe("points");
    const family = linePlan({ scale: { lengthMm: 120, attributes: [attribute, { ...tender, inFamily: true }] } });
    const within = lineRecord(
      family,
      juicinessMarks.map((row) => [row.slice(), row.slice()]),
    );
    expect(find(within, "intensity", { question: rested }).found).toBe("higher");
  });
});

test("two factors: what each does, and that the one does not depend on the other, by hand", () => {
  const ids = ["a", "b", "c", "d"].map((letter) => `${letter.repeat(8)}-0000-4000-8000-000000000000`);
  const [seenDry = "", seenSteam = "", maskedDry = "", maskedSteam = ""] = ids;
  const products = ids.map((id, at) => ({ id, name: `product ${at + 1}`, preparation: "" }));
  const cells = [
    { product: seenDry, first: "one", second: "one" },
    { product: seenSteam, first: "two", second: "one" },
    { product: maskedDry, first: "one", second: "two" },
    { product: maskedSteam, first: "two", second: "two" },
  ] as const;
  const plan = linePlan({
    products,
    comparisons: {
      kind: "two-factors",
      factors: [
        { name: "process", levels: ["dry oven", "steam first"] },
        { name: "looks", levels: ["seen", "masked"] },
      ],
      cells: [...cells],
    },
    waves: linePlan().waves.map((wave) => ({ ...wave, batches: Object.fromEntries(ids.map((id) => [id, ["1"]])) })),
  });
  // steam adds 12 whether seen or not (12 = 52 - 40 = 49 - 37), masking takes 3; scatter of 1 that adds up to nothing
  const scatter = [1, -1, -1, 1];
  const marks = Array.from({ length: 12 }, (_, person) => [
    [40, 52, 37, 49].map((mean, at) => mean + person + (scatter[(at + person) % 4] ?? 0)),
  ]);
  const record = lineRecord(plan, marks);
  const effect = (changes: Partial<Attachment>) => find(record, "intensity", changes);
  const estimate = ({ numbers }: ReturnType<typeof effect>) => (numbers?.what === "points" ? numbers.estimate : null);
  expect(effect({ effect: "first-factor" }).found).toBe("higher");
  expect(estimate(effect({ effect: "first-factor" }))).toBeCloseTo(12, 9);
  expect(effect({ effect: "first-factor", turned: true }).found).toBe("lower");
  expect(estimate(effect({ effect: "second-factor" }))).toBeCloseTo(-3, 9);
  expect(effect({ effect: "interaction" }).found).toBe("not-shown");
  expect(estimate(effect({ effect: "interaction" }))).toBeCloseTo(0, 9);
  expect(effect({ effect: "pair" })).toMatchObject({ why: "not-compared" });
});

describe("choices", () => {
  const asked = { ...juicier, expected: steamed };
  const plan = { method: "paired-difference", sides: "one", properties: [asked], people: 24 } satisfies Partial<Plan>;
  const pairs = (forNew: number) =>
    recordByHand(
      plan,
      Array.from({ length: 24 }, (_, at) => ({ order: "AB", answers: [at < forNew ? 2 : 1] })),
    );

  test("18 of 24 say that new is juicier, as expected: higher, needs 17 as printed", () => {
    const finding = find(pairs(18), "intensity");
    expect(finding).toMatchObject({ found: "higher", numbers: { product: "new", picked: 18, of: 24, chance: 0.5 } });
    expect(find(pairs(18), "intensity", { first: steamed, second: current }).found).toBe("lower");
    expect(find(pairs(17), "intensity").found).toBe("higher");
    expect(find(pairs(16), "intensity").found).toBe("not-shown");
  });

  test("the interval leaves one half out exactly when the test reaches its risk", () => {
    const low = (forNew: number) => {
      const { numbers } = find(pairs(forNew), "intensity");
      return numbers?.what === "picked" ? (numbers.share.low ?? 0) : 0;
    };
    expect([low(17) > 0.5, low(16) > 0.5]).toEqual([true, false]);
  });

  test("far fewer than guessing would give: labels are in doubt, and it is no finding the other way", () => {
    expect(find(pairs(4), "intensity")).toMatchObject({ found: "no-verdict", why: "far-below-chance" });
  });

  test("a triangle says that people can tell, in no direction; 13 of 24 are needed as printed", () => {
    expect(find(recordOf(14), "noticed")).toMatchObject({
      found: "differs",
      numbers: { what: "right", right: 14, of: 24, chance: 1 / 3 },
    });
    expect(find(recordOf(12), "noticed").found).toBe("not-shown");
    expect(find(recordOf(14), "intensity").why).toBe("other-kind");
  });
});

test("a ranking: rank sums current 20, new 36, rested 39, held 25 as printed, judged by the range of all of them", () => {
  const rows = "1342 2341 4231 2431 2341 1234 2413 1234 1423 2341 1342 1342".split(" ");
  const plan = rankingPlan({ people: 12 });
  const empty = emptyRecord(plan);
  const judgments = rows.map((ranks, at) => {
    const { tray, samples } = empty.opened.key.trays[at] ?? { tray: 0, samples: [] };
    const rankOf = (product: string) => Number(ranks[plan.products.findIndex(({ id }) => id === product)]);
    const order = samples.toSorted((one, other) => rankOf(one.product) - rankOf(other.product));
    const choice = order.map(({ code }) => code).join(" ");
    return { tray, seat: tray, wave: 1, device: current, question: 1, choice, guess: false };
  });
  const record = read(studyRecord, { ...empty, judgments });
  const [now, , restedOne, heldOne] = plan.products.map(({ id }) => id);
  const against = (second: string | undefined) =>
    find(record, "intensity", { first: now ?? null, second: second ?? null });
  // Nemenyi's difference at 0.05 for 4 products and 12 people: 3.633 * sqrt(12 * 4 * 5 / 12) = 16.2 (q from memory)
  expect(against(restedOne)).toMatchObject({ found: "higher", numbers: { what: "rank-sum", estimate: 19 } });
  expect(against(heldOne)).toMatchObject({ found: "not-shown", numbers: { what: "rank-sum", estimate: 5 } });
  expect(questionsFor(plan, "intensity")).toEqual([{ id: null, name: plan.ranking.name }]);
  expect(questionsFor(plan, "preference")).toEqual([]);
});

test("what a plan can measure: by its method, and by how a property is asked", () => {
  expect(questionsFor(readyPlan(), "noticed")).toHaveLength(1);
  expect(questionsFor(readyPlan(), "intensity")).toEqual([]);
  expect(questionsFor(preferencePlan(), "preference")).toHaveLength(1);
  expect(questionsFor(linePlan(), "mass")).toEqual([]);
  const [attribute] = linePlan().scale.attributes;
  if (!attribute) throw new Error("no attribute");
  const labels = ["too little", "just right", "too much"];
  const formed = (form: typeof attribute.form) =>
    linePlan({ scale: { lengthMm: 120, attributes: [{ ...attribute, form }] } });
  expect(questionsFor(formed({ kind: "just-right", labels }), "intensity")).toEqual([]);
  expect(questionsFor(formed({ kind: "steps", labels, liking: true }), "preference")).toHaveLength(1);
  expect(questionsFor(formed({ kind: "steps", labels, liking: true }), "intensity")).toEqual([]);
});
