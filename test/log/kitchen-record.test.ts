import { describe, expect, test } from "vitest";
import { type Departure, servedKey } from "../../src/model/record.ts";
import { report } from "../../src/words/en/report.ts";
import { Cook, current, recorded, steamed } from "./kitchen-example.ts";

/** All pots cooked through at once, but those named. */
function cooked(but: readonly string[] = []): Cook {
  const cook = new Cook();
  for (const [wave, pot] of [
    [1, "KT"],
    [1, "MV"],
    [2, "PW"],
    [2, "RZ"],
  ] as const) {
    if (!but.includes(pot)) cook.core(wave, pot, "75");
  }
  return cook;
}
const batchesOf = (cook: Cook, tray: number) =>
  servedKey(recorded(cook))
    .find((each) => each.tray === tray)
    ?.samples.map(({ batch }) => batch);
const of = <W extends Departure["what"]>(departures: readonly Departure[], what: W) =>
  departures.filter((one): one is Extract<Departure, { what: W }> => one.what === what);

describe("batches that were really served", () => {
  test("nothing changed: those of the key", () => {
    expect(recorded(cooked()).otherBatches).toEqual([]);
    expect(batchesOf(cooked(), 4)).toEqual(["new 2", "current 2", "new 2"]);
  });

  test("made anew: a new batch of the same product, for the whole wave; the opened key stays as it was locked", () => {
    const cook = cooked();
    cook.change(2, "RZ", "RZC");
    const record = recorded(cook);
    const [fourth] = servedKey(record).filter(({ tray }) => tray === 4);
    expect(fourth?.samples.map(({ product, batch }) => [product, batch])).toEqual([
      [steamed, "new 2 → RZC"],
      [current, "current 2"],
      [steamed, "new 2 → RZC"],
    ]);
    expect(record.opened.key.trays[3]?.samples[0]?.batch).toBe("new 2");
    expect(of(record.departures, "batch-changed")).toMatchObject([
      { batch: "new 2", becomes: "new 2 → RZC", trays: [] },
    ]);
  });

  test("for the trays named only; and one that stood ready keeps its own name", () => {
    const cook = cooked();
    cook.change(1, "MV", "RZ", [2]);
    expect([1, 2].map((tray) => batchesOf(cook, tray)?.[0])).toEqual(["new 1", "new 2"]);
  });

  test("for a wave of which one tray was served before: that one keeps the batch that it was served from", () => {
    const cook = cooked();
    cook.change(1, "MV", "MVC", [], [1]);
    expect([1, 2].map((tray) => batchesOf(cook, tray)?.[0])).toEqual(["new 1", "new 1 \u2192 MVC"]);
    expect(sentences(cook)).toContain(
      "Wave 1, batch \u201cnew 1\u201d: replaced by \u201cnew 1 \u2192 MVC\u201d (made anew), not for tray 1, served or tasted before.",
    );
  });

  test("a pot of the other product is no batch of this one", () => {
    const cook = cooked();
    cook.change(1, "MV", "PW", [2]);
    const record = recorded(cook);
    expect(of(record.departures, "batch-not-recorded")).toEqual([
      { what: "batch-not-recorded", why: "other-product", trays: [2] },
    ]);
  });

  test("changes that were written apart and disagree: not recorded", () => {
    const cook = cooked();
    cook.change(1, "MV", "MVC");
    cook.change(1, "MV", "MVD");
    expect(batchesOf(cook, 1)).toEqual(["", "current 1", ""]);
  });

  test("late, served with wave 2: the batches of that wave, and what changed there", () => {
    const cook = cooked();
    cook.person(2, "late", 2);
    cook.change(2, "RZ", "RZC");
    const record = recorded(cook);
    expect(servedKey(record)[1]?.samples.map(({ batch }) => batch)).toEqual([
      "new 2 → RZC",
      "current 2",
      "new 2 → RZC",
    ]);
    expect(of(record.departures, "person-noted")).toEqual([
      { what: "person-noted", tray: 2, state: "late", wave: 2, note: "" },
    ]);
  });

  test("moved to a wave that the lock does not have: not recorded, and said so", () => {
    const cook = cooked();
    cook.person(2, "here", 9);
    const record = recorded(cook);
    expect(servedKey(record)[1]?.samples.map(({ batch }) => batch)).toEqual(["", "", ""]);
    expect(of(record.departures, "batch-not-recorded")).toMatchObject([{ why: "moved", trays: [2] }]);
    expect(of(record.departures, "person-noted")).toEqual([
      { what: "person-noted", tray: 2, state: "no-wave", wave: 9, note: "" },
    ]);
  });

  test("trays that were begun when a batch gave way count to the batch that they came from; one that is moved here does not", () => {
    const cook = cooked();
    cook.change(1, "MV", "MVC", [], [1, 2]);
    cook.person(4, "late", 1);
    expect([1, 2, 3, 4].map((tray) => batchesOf(cook, tray)?.[0])).toEqual([
      "new 1",
      "new 1",
      "new 1 \u2192 MVC",
      "new 1 \u2192 MVC",
    ]);
    expect(sentences(cook).filter((each) => each.includes("replaced"))).toEqual([
      "Wave 1, batch “new 1”: replaced by “new 1 → MVC” (made anew), not for trays 1 and 2, served or tasted before.",
    ]);
  });

  test("changes in a circle: nobody can say which batch it was, and the report says so", () => {
    const cook = cooked();
    cook.change(1, "MV", "MVC");
    cook.change(1, "MVC", "MV");
    const record = recorded(cook);
    expect(servedKey(record)[0]?.samples.map(({ batch }) => batch)).toEqual(["", "current 1", ""]);
    expect(of(record.departures, "batch-not-recorded")).toEqual([
      { what: "batch-not-recorded", why: "apart", trays: [1, 2, 3] },
    ]);
  });

  test("a change that the reveal did not see changes nothing", () => {
    const cook = cooked();
    recorded(cook);
    cook.change(2, "RZ", "RZC");
    expect(batchesOf(cook, 4)?.[0]).toBe("new 2");
  });
});

const sentences = (cook: Cook): string[] =>
  recorded(cook).departures.flatMap((departure) => {
    // these days wrote down only what they are about: a test of its own tells of what they lack
    if (departure.what === "not-written-down") return [];
    const say = report.departures[departure.what] as (one: Departure) => string;
    return departure.what === "not-answered" ? [] : [say(departure).replaceAll("\u00a0", " ")];
  });

describe("departures, as the report says them", () => {
  test("71 °C, back into the oven, 76 °C", () => {
    const cook = cooked(["RZ"]);
    const first = cook.core(2, "RZ", "71");
    cook.core(2, "RZ", "76", { after: [first] });
    expect(sentences(cook)).toEqual([
      "Wave 2, batch “new 2”: the core first read 71 °C, then 76 °C, against 74 °C. The last reading passed.",
    ]);
  });

  test("served before a core was read, and once it had passed", () => {
    const cook = cooked(["RZ"]);
    cook.out(2, "PW", "RZ");
    cook.turn(4, "served");
    const first = cook.core(2, "RZ", "71");
    cook.turn(5, "served");
    cook.core(2, "RZ", "76", { after: [first] });
    cook.turn(6, "served");
    expect(sentences(cook).filter((each) => each.includes("served with"))).toEqual([
      "Tray 4: noted as served with wave 2 while no core temperature was on record yet, by the log as it was then.",
      "Tray 5: noted as served with wave 2 while the core of a batch was below its limit, by the log as it was then.",
    ]);
  });

  test("served before anybody wrote when the pots had left the heat", () => {
    const cook = cooked();
    cook.left(2, "PW", "11:50");
    cook.turn(4, "served");
    expect(sentences(cook).filter((each) => each.includes("served with"))).toEqual([
      "Tray 4: noted as served with wave 2 while no time out of the heat or the cold and no passing reading of holding was on record yet, by the log as it was then.",
    ]);
  });

  test("served past the window and past the limit of time: each clock by itself", () => {
    const cook = cooked();
    for (const pot of ["KT", "MV"]) cook.left(1, pot, "11:40");
    cook.left(2, "PW", "10:50");
    cook.left(2, "RZ", "11:50");
    cook.turn(1, "served");
    cook.turn(2, "served");
    cook.turn(4, "served");
    expect(sentences(cook)).toEqual([
      "Tray 4: noted as served with wave 2 while the limit of time out of temperature was reached, by the log as it was then.",
      "Trays 1 and 2: noted as served with wave 1 more than 15 minutes after the heat, outside of the planned window.",
      "Tray 4: noted as served with wave 2 more than 15 minutes after the heat, outside of the planned window.",
    ]);
  });

  test("a tray that is noted with another wave after it was served is judged by the one it was served with", () => {
    const cook = cooked();
    cook.out(1, "KT", "MV");
    cook.turn(1, "served");
    cook.person(1, "here", 2);
    expect(sentences(cook)).toEqual(["Tray 1: the panelist was served with wave 2."]);
    const other = cooked();
    other.out(2, "PW", "RZ");
    other.turn(1, "served");
    other.person(1, "here", 2);
    expect(sentences(other).filter((each) => each.includes("noted as served with"))).toEqual([
      "Tray 1: noted as served with wave 1 while no time out of the heat or the cold and no passing reading of holding was on record yet, by the log as it was then.",
    ]);
  });

  test("a reading that was taken back later still stood when the tray was served", () => {
    const cook = cooked(["RZ"]);
    cook.out(2, "PW", "RZ");
    const reading = cook.core(2, "RZ", "60");
    cook.turn(4, "served");
    cook.void(reading);
    cook.core(2, "RZ", "75");
    expect(sentences(cook)).toEqual([
      "Tray 4: noted as served with wave 2 while the core of a batch was below its limit, by the log as it was then.",
      "An entry of the kitchen was taken back: a core temperature. Note: “typed wrong”",
    ]);
  });

  test("people, halts, checks, papers, holding", () => {
    const cook = cooked();
    cook.out(2, "PW", "RZ");
    cook.held(1, "KT", "hot", "55");
    cook.person(3, "missing");
    const halt = cook.note("serving-halted", { why: "person" });
    cook.note("serving-resumed", { halts: [halt], note: "" });
    cook.note("serving-halted", { why: "room" });
    cook.turn(5, "checked", false);
    cook.turn(5, "served");
    cook.note("paper-printed", { paper: "kitchen-by-tray", reprint: false });
    expect(sentences(cook)).toEqual([
      "Wave 1, batch “current 1”: held hot, it read 55 °C, against 60 °C. No later reading passed.",
      "Tray 5: noted as served with wave 2 while serving was halted, by the log as it was then.",
      "Tray 3: the panelist did not come.",
      "Tray 5: served although a check had found something wrong.",
      "Serving was halted: somebody needed attention.",
      "Serving was halted: because of the room. That it went on is not recorded.",
      "The kitchen sheet by tray, which holds the key, is not recorded as back with the lead.",
    ]);
  });

  test("allowed by whom the lock named; and refused of anybody else", () => {
    const plan = { cautionsApplying: ["undercooked" as const], responsible: "Odalys Brandt" };
    const cook = new Cook(plan);
    for (const [wave, pot] of [
      [1, "KT"],
      [1, "MV"],
      [2, "PW"],
    ] as const)
      cook.core(wave, pot, "75");
    const reading = cook.core(2, "RZ", "60");
    cook.note("cooking-excepted", { reading, by: "Teo Marchetti", note: "" });
    cook.note("cooking-excepted", { reading, by: "Odalys Brandt", note: "pink by design" });
    expect(sentences(cook)).toEqual([
      "Wave 2, batch “new 2”: the core read 60 °C, against 74 °C. Odalys Brandt allowed it to be served so. Note: “pink by design”",
      "“Teo Marchetti” noted food below a limit of cooking as allowed. The locked plan does not let that person, so it was not used.",
    ]);
  });
});

test("temperatures and times stand with batch, limit and its source", () => {
  const cook = cooked(["RZ"]);
  cook.core(2, "RZ", "71");
  cook.left(2, "RZ", "11:50");
  cook.note("serving-read", { wave: 2, tray: 4, celsius: "54.5", note: "" });
  const rows = recorded(cook).temperatures.filter(({ wave, batch, tray }) => wave === 2 && (batch === "new 2" || tray));
  expect(rows.map(({ what, celsius, verdict }) => [what, celsius, verdict])).toEqual([
    ["core", "71", "below"],
    ["left", "", null],
    ["serving", "54.5", null],
  ]);
  expect(rows[0]?.limits).toEqual([
    { celsius: 74, heldSeconds: 0, restMinutes: 0, source: "USDA chart of safe temperatures, as reproduced by others" },
  ]);
  expect([rows[0]?.product, rows[1]?.time]).toEqual([steamed, "2026-05-03T11:50:00.000Z"]);
});

test("from the cold: its own kind of row; a reading from a file has the time at which it was read", () => {
  const cook = cooked();
  cook.left(1, "KT", "11:50", [], "cold");
  cook.held(1, "MV", "cold", "3", [], "11:30");
  const rows = recorded(cook).temperatures.filter(({ what }) => what !== "core");
  expect(rows.map(({ what, celsius, time }) => [what, celsius, time])).toEqual([
    ["left-cold", "", "2026-05-03T11:50:00.000Z"],
    ["held-cold", "3", "2026-05-03T11:30:00.000Z"],
  ]);
});

test("where temperatures are written down a batch without any is told, also one that came in another's place", () => {
  const cook = cooked(["RZ"]);
  cook.left(1, "KT", "11:50");
  cook.change(1, "MV", "MVC");
  const lacking = of(recorded(cook).departures, "not-written-down");
  expect(lacking.map(({ wave, batch, lacks }) => [wave, batch, lacks])).toEqual(
    expect.arrayContaining([
      [1, "new 1 \u2192 MVC", "core"],
      [1, "new 1 \u2192 MVC", "left"],
      [2, "new 2", "core"],
    ]),
  );
  expect(lacking.some(({ wave, batch, lacks }) => wave === 1 && batch === "current 1" && lacks === "left")).toBe(false);
  // a kitchen that wrote down nothing at all has no such list: its report says that nothing was recorded
  expect(of(recorded(new Cook()).departures, "not-written-down")).toEqual([]);
});
