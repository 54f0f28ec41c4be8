import { describe, expect, test } from "vitest";
import { analyseScale, resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { describe as say } from "../../src/analysis/describe.ts";
import { markedLines } from "../../src/analysis/marking.ts";
import { markValue } from "../../src/analysis/steps.ts";
import { marksCsv } from "../../src/archive/marks-csv.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import { ordersOf } from "../../src/design/method.ts";
import { openParts } from "../../src/design/readiness.ts";
import { orderBalance } from "../../src/design/williams.ts";
import type { Plan } from "../../src/model/plan.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan, repeated } from "../design/scenario.ts";
import { relativeError } from "./reference.ts";
import { wineRows, wineScores } from "./score-rows.ts";
import { drawnTrays, lineRecord, type Marks } from "./study-records.ts";

/** Four products, nine judges, one tray in each of two sessions: the design of the wines. */
function winePlan(): Plan {
  const plan = linePlan();
  const [first] = plan.products;
  if (!first) throw new Error("no product");
  const names = [...new Set(wineRows.map(({ product }) => product))];
  const products = names.map((name, at) => ({ ...first, id: first.id.replace(/.$/, String(at)), name }));
  const batches = Object.fromEntries(products.map(({ id }, at) => [id, [`B${at}`]]));
  return {
    ...plan,
    products,
    people: 9,
    spares: 0,
    repeats: 2,
    repeatsIn: "sessions",
    waves: plan.waves.slice(0, 2).map((wave, at) => ({ ...wave, people: 9, session: `day ${at + 1}`, batches })),
    declarations: products.map(({ id }) => ({ of: id, contains: [], mayContain: [], other: "", none: true })),
  };
}

/** The wines as a study: judge by judge on the trays of a seat, bottle by bottle from session to session. */
function wineRecord(left: readonly number[] = []) {
  const plan = winePlan();
  const { seats, key } = drawnTrays(plan);
  const judges = [...new Set(wineRows.map(({ panelist }) => panelist))];
  const seatOf = (tray: number) => seats.find(({ trays }) => trays.includes(tray));
  const marks = key.trays.map(({ tray }): Marks => {
    const seat = seatOf(tray);
    const repeat = String((seat?.trays.indexOf(tray) ?? 0) + 1);
    const judge = judges[(seat?.seat ?? 0) - 1];
    const own = wineRows.filter((row) => row.panelist === judge && row.repeat === repeat);
    return left.includes(tray)
      ? []
      : [plan.products.map(({ name }) => own.find(({ product }) => product === name)?.value)];
  });
  return lineRecord(plan, marks, {}, (tray) => {
    const seat = seatOf(tray);
    return { seat: seat?.seat ?? 0, wave: (seat?.trays.indexOf(tray) ?? 0) + 1 };
  });
}

const { computed } = wineScores;

describe("nine judges, four wines, two bottles each, planned as two trays a person; data of Randall 1989, values R 4.2.2", () => {
  const record = wineRecord();
  const found = analyseScale(record, "1");
  const [bitter] = found.attributes;

  test("F 25.138 on 3 and 24 against judges by wines, and the three components of variance", () => {
    expect(bitter).toMatchObject({ people: 9, judgments: 72, repeats: 2 });
    expect(bitter?.blocks).toMatchObject({ numeratorDf: 3, denominatorDf: 24 });
    expect(relativeError(bitter?.blocks?.fValue ?? 0, computed.F_random_treatment_over_interaction)).toBeLessThan(1e-9);
    expect(bitter?.variances.panelistProduct).toBeCloseTo(computed.varianceComponents.judgeTreatment, 6);
    expect(bitter?.variances.residual).toBeCloseTo(computed.varianceComponents.residual, 6);
  });
  test("the report counts people, not marks, and says so", () => {
    const said = say(found, report);
    expect(said.rows.find(({ id }) => id === "people")?.value).toBe("9");
    expect(found.caveats).toContainEqual({ what: "repeats-averaged", people: 9, judgments: 72, tested: true });
    expect(said.caveats.join(" ")).toContain("72 marks came from 9 people");
    expect(found.caveats.map(({ what }) => what)).not.toContain("trays-below-plan");
  });
  test("the CSV has a column of repeats, and gives the same F again", () => {
    const text = marksCsv(record, markedLines(record), markValue);
    const { answers } = readScale(text, "scale.csv");
    expect(new Set(answers.map(({ repeat }) => repeat))).toEqual(new Set(["1", "2"]));
    const again = resultOfScaleRows(0.05, answers, "1").attributes[0];
    expect(relativeError(again?.blocks?.fValue ?? 0, computed.F_random_treatment_over_interaction)).toBeLessThan(1e-9);
    expect(again?.repeats).toBe(2);
  });
  test("a tray that was never marked leaves its person in the test, and is said to be missing", () => {
    const short = analyseScale(wineRecord([4]), "1");
    expect(short.attributes[0]).toMatchObject({ people: 9, judgments: 68 });
    expect(short.caveats).toContainEqual({ what: "trays-below-plan", planned: 18, marked: 17 });
  });
});

describe("a line scale with several trays a person", () => {
  test.each(["one-sitting", "sessions"] as const)(
    "%s: nobody has an order twice, and each round is balanced in places and neighbors",
    (where) => {
      const plan = repeated(linePlan(), where);
      expect(openParts(plan)).toEqual([]);
      const { key, seats } = drawnTrays(plan);
      const orderOf = (tray: number | undefined) => key.trays.find((one) => one.tray === tray)?.order ?? "";
      for (const { trays } of seats) expect(new Set(trays.map(orderOf)).size).toBe(trays.length);
      for (const round of [0, 1]) {
        const { places, follows } = orderBalance(
          seats.map(({ trays }) => orderOf(trays[round])),
          3,
        );
        // twelve people, three products: each 4 times in each place, and 4 times right after each other one
        expect(places).toEqual([0, 1, 2].map(() => [4, 4, 4]));
        expect(follows.flatMap((row, at) => row.filter((_, before) => before !== at))).toEqual(new Array(6).fill(4));
      }
      expect(ordersOf(plan)).toHaveLength(6);
    },
  );
  test("with incomplete blocks it is refused in words", () => {
    const plan = repeated(linePlan(), "one-sitting");
    expect(openParts({ ...plan, perTray: 2 })).toContainEqual({ part: "people", what: "repeats-in-blocks" });
  });
});
