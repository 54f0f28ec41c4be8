import { describe, expect, test } from "vitest";
import { readTable } from "../../src/archive/csv.ts";
import { readTemperatures } from "../../src/archive/temperature-rows.ts";
import { temperaturesCsv } from "../../src/archive/temperatures-csv.ts";
import { entriesOf, kitchenFactsOf } from "../../src/log/day-entries.ts";
import { rowsOfDay, unnamed } from "../../src/log/day-rows.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf } from "../../src/log/kitchen-day.ts";
import { Cook, recorded } from "../log/kitchen-example.ts";
import { problemOf } from "../problem-of.ts";

const path = "temperatures.csv";
const header = "wave,pot,what,celsius,held_seconds,rest_minutes,time,note";
const around = {
  waves: [
    { wave: 1, pots: ["KT", "MV"] },
    { wave: 2, pots: ["PW", "RZ"] },
  ],
  instantOf: (clock: string) => `2026-05-03T${clock}:00.000Z`,
};
const reading = (...lines: string[]) => readTemperatures([header, ...lines].join("\n"), path, around);

test("each kind of line, with its own columns", () => {
  const { entries, extraColumns } = reading(
    "1,kt,core,71.0,17,3,11:02,too cold",
    "1,KT,left-heat,,,,11:50,",
    "1,MV,held-hot,63,,,,",
    "2,PW,held-cold,-18.5,,,,",
    "2,,serving,54.5,,,,first cup",
  );
  expect(entries.map(({ line, kind }) => [line, kind])).toEqual([
    [2, "core-read"],
    [3, "heat-left"],
    [4, "holding-read"],
    [5, "holding-read"],
    [6, "serving-read"],
  ]);
  const [core, left, hot, cold, cup] = entries.map(({ body }) => body);
  // readings keep their decimals: 71.0 is not 71
  expect(core).toMatchObject({ pot: "KT", celsius: "71.0", heldSeconds: 17, restMinutes: 3, note: "11:02 · too cold" });
  expect(left).toMatchObject({ left: "2026-05-03T11:50:00.000Z", note: "" });
  expect([hot, cold]).toMatchObject([{ held: "hot" }, { held: "cold", celsius: "-18.5" }]);
  expect(cup).toEqual({ wave: 2, tray: null, celsius: "54.5", note: "first cup" });
  expect(extraColumns).toEqual([]);
});

test("an instant with an offset is the same moment", () => {
  const [entry] = reading("1,KT,left-heat,,,,2026-05-03T11:50+02:00,").entries;
  expect(entry?.body).toMatchObject({ left: "2026-05-03T09:50:00.000Z" });
});

describe("refused with line and column", () => {
  test.each([
    ["3,KT,core,75,,,,", "wave"],
    ["1,RZ,core,75,,,,", "pot"],
    ["1,,core,75,,,,", "pot"],
    ["1,KT,cooked,75,,,,", "what"],
    ["1,KT,core,hot,,,,", "celsius"],
    ["1,KT,core,,,,,", "celsius"],
    ["1,KT,core,750,,,,", "celsius"],
    ["1,KT,core,75,-1,,,", "held_seconds"],
    ["1,KT,core,75,,1.5,,", "rest_minutes"],
    ["1,KT,left-heat,,,,,", "time"],
    ["1,KT,left-heat,,,,25:00,", "time"],
    ["1,KT,left-heat,,,,2026-13-40T11:50Z,", "time"],
    [`1,KT,core,75,,,,${"x".repeat(301)}`, "note"],
  ])("%s", (line, column) => {
    const { code, details } = problemOf(() => reading("1,KT,core,75,,,,", line));
    expect([code, details]).toMatchObject(["csv/bad-value", { line: 3, column }]);
  });

  test("without its header", () => {
    const { code, details } = problemOf(() =>
      readTemperatures("1,KT,core,75,17,3,11:02,cold\n1,MV,core,75,17,3,11:02,cold\n", path, around),
    );
    expect([code, details]).toMatchObject(["csv/no-header", { found: "1, KT, core, 75, 17, 3, 11:02, cold" }]);
  });
});

/** A day with something of each kind. */
function written(): Cook {
  const cook = new Cook();
  const first = cook.core(2, "RZ", "71.0", { probe: "Probe 2" });
  cook.core(2, "RZ", "76", { after: [first], note: "back in the oven" });
  cook.left(2, "RZ", "11:50");
  cook.held(1, "KT", "hot", "65", [], "11:40");
  cook.note("serving-read", { wave: 2, tray: 4, celsius: "54.5", note: "" });
  cook.turn(4, "served");
  return cook;
}

test("before the reveal a file goes by pots and names no product; what is read back is what was written", () => {
  const cook = written();
  const state = foldStudy(cook.facts);
  const day = dayOf(state, 0);
  const text = temperaturesCsv(day ? rowsOfDay(day, cook.plan, unnamed) : [], null, true);
  for (const word of ["product", "batch", "new", "current"]) expect(text).not.toMatch(new RegExp(`\\b${word}\\b`));
  const { entries, servedLines } = readTemperatures(text, path, around);
  const facts = entriesOf(kitchenFactsOf(state));
  const strip = ({ body }: { body: object }) => ({ ...body, after: [], note: "" });
  const before = [
    ...facts.of("holding-read"),
    ...facts.of("core-read"),
    ...facts.of("heat-left"),
    ...facts.of("serving-read"),
  ];
  expect(entries.map(strip)).toEqual(before.map(strip));
  expect(servedLines).toHaveLength(1);
});

test("after the reveal each line has product and batch; times of single trays are for a lead", () => {
  const cook = written();
  const { temperatures, plan } = recorded(cook);
  const table = (people: boolean) => readTable(temperaturesCsv(temperatures, plan.products, people), path);
  const cells = table(true).rows.map((row) => row.cells);
  const at = (column: string) => table(true).columns.indexOf(column);
  expect(cells.map((row) => [row[at("what")], row[at("celsius")], row[at("verdict")], row[at("batch")]])).toEqual([
    ["held-hot", "65", "met", "current 1"],
    ["core", "71.0", "below", "new 2"],
    ["core", "76", "met", "new 2"],
    ["left-heat", "", "", "new 2"],
    ["serving", "54.5", "", ""],
    ["served", "", "", ""],
  ]);
  expect(cells[1]?.[at("product")]).toBe("new");
  expect(table(false).rows.map((row) => row.cells[at("what")])).not.toContain("served");
});
