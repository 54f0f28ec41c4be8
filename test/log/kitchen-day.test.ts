import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf, type KitchenDay } from "../../src/log/kitchen-day.ts";
import { limitTables } from "../../src/model/safety-limit.ts";
import { at, Cook } from "./kitchen-example.ts";

const noon = at("12:00");
function day(cook: Cook, now = noon): KitchenDay {
  const made = dayOf(foldStudy(cook.facts), now);
  if (!made) throw new Error("no lock");
  return made;
}
const wave = (cook: Cook, number = 1, now = noon) => {
  const found = day(cook, now).waves.find((each) => each.wave === number);
  if (!found) throw new Error("no such wave");
  return found;
};
const blocked = (cook: Cook, number = 1, now = noon) =>
  wave(cook, number, now).blocked.map((block) => ("pot" in block ? `${block.pot} ${block.why}` : block.why));
/** Both pots of wave 1 cooked through. */
function hot(plan: ConstructorParameters<typeof Cook>[0] = {}): Cook {
  const cook = new Cook(plan);
  cook.core(1, "KT", "75");
  cook.core(1, "MV", "74");
  return cook;
}
/** The same, and all four pots out of the heat for ten minutes. */
function cooked(plan: ConstructorParameters<typeof Cook>[0] = {}): Cook {
  const cook = hot(plan);
  cook.out(1, "KT", "MV");
  cook.out(2, "PW", "RZ");
  return cook;
}

// poultry, 74 °C: the US chart of safe temperatures for consumers (165 °F), as in test/model/safety-check
describe("the core", () => {
  test("nothing read is not served, and says what is missing", () => {
    const cook = new Cook();
    expect(blocked(cook)).toEqual(["KT not-read", "MV not-read"]);
    expect(wave(cook).missing).toContainEqual({ what: "core", pot: "KT" });
  });

  test("the limit itself is met, a tenth below it is not, and only its wave is held back", () => {
    const cook = new Cook();
    cook.core(1, "KT", "74");
    cook.core(1, "MV", "73.9");
    cook.out(1, "KT");
    expect(blocked(cook)).toEqual(["MV below"]);
    expect(wave(cook).blocked).toContainEqual(
      expect.objectContaining({ pot: "MV", celsius: "73.9", rows: [expect.objectContaining({ celsius: 74 })] }),
    );
    expect(blocked(cook, 2)).toEqual(["PW not-read", "RZ not-read"]);
  });

  test("71 °C, back into the oven, 76 °C: the further reading frees the wave only if it names the first", () => {
    const cook = cooked();
    const first = cook.core(2, "PW", "71");
    cook.core(2, "RZ", "75");
    expect(blocked(cook, 2)).toEqual(["PW below"]);
    const apart = cook.core(2, "PW", "76");
    expect(blocked(cook, 2)).toEqual(["PW apart"]);
    cook.core(2, "PW", "77", { after: [first, apart] });
    expect(blocked(cook, 2)).toEqual([]);
  });

  test("a reading that was typed wrong is taken back, and what it followed stands again", () => {
    const cook = cooked();
    const first = cook.core(2, "PW", "71");
    cook.core(2, "RZ", "80");
    const second = cook.core(2, "PW", "76", { after: [first] });
    expect(blocked(cook, 2)).toEqual([]);
    cook.void(second);
    expect(blocked(cook, 2)).toEqual(["PW below"]);
    expect(day(cook).voided.map(({ entry }) => entry.id)).toEqual([second]);
  });

  test("of three readings the middle one is taken back: the third still follows the first", () => {
    const cook = cooked();
    const first = cook.core(2, "PW", "71");
    cook.core(2, "RZ", "80");
    const second = cook.core(2, "PW", "7.6", { after: [first] });
    cook.core(2, "PW", "76", { after: [second] });
    expect(blocked(cook, 2)).toEqual([]);
    cook.void(second);
    expect(blocked(cook, 2)).toEqual([]);
  });

  test("a batch that serves two waves is read once for both", () => {
    const cook = new Cook({}, [
      { wave: 1, pots: ["KT"] },
      { wave: 2, pots: ["KT", "RZ"] },
    ]);
    cook.core(1, "KT", "76");
    cook.out(1, "KT");
    cook.out(2, "KT");
    expect([blocked(cook), blocked(cook, 2)]).toEqual([[], ["RZ not-read"]]);
  });

  test("time at a temperature counts: 68 °C for 17 s (food code, ground meat)", () => {
    const limits = limitTables["food-service"].filter(
      (limit) => limit.kind !== "cooking" || limit.food.startsWith("Ground"),
    );
    const cook = new Cook({ limits });
    cook.core(1, "KT", "68", { heldSeconds: 17 });
    cook.core(1, "MV", "68", { heldSeconds: 16 });
    cook.out(1, "KT");
    expect(blocked(cook)).toEqual(["MV below"]);
  });

  test("without limits, or where nothing is cooked through, no reading is waited for, and the day says so", () => {
    expect([blocked(new Cook({ limits: [] })), day(new Cook({ limits: [] })).limits]).toEqual([[], "none"]);
    const raw = new Cook({ uncooked: true });
    expect([blocked(raw), day(raw).limits, wave(raw).pots[0]?.core]).toEqual([[], "not-cooked", "not-needed"]);
  });
});

describe("exceptions", () => {
  const undercooked = { cautionsApplying: ["undercooked" as const], responsible: "Odalys Brandt" };
  const excepted = (plan: ConstructorParameters<typeof Cook>[0], by: string) => {
    const cook = new Cook(plan);
    cook.core(1, "KT", "75");
    cook.out(1, "KT", "MV");
    const reading = cook.core(1, "MV", "60");
    cook.note("cooking-excepted", { reading, by, note: "pink by design" });
    return cook;
  };

  test("whom the lock named lets it be served; it shows as allowed, not as met", () => {
    const cook = excepted(undercooked, " Odalys Brandt ");
    expect([blocked(cook), wave(cook).pots.map(({ core }) => core)]).toEqual([[], ["met", "allowed"]]);
  });

  test.each([
    ["somebody else", undercooked, "Teo Marchetti"],
    ["food that is not undercooked by design", { responsible: "Odalys Brandt" }, "Odalys Brandt"],
    ["nobody named", { cautionsApplying: ["undercooked" as const] }, ""],
  ])("refused and shown: %s", (_, plan, by) => {
    const cook = excepted(plan, by);
    expect(blocked(cook)).toEqual(["MV below"]);
    expect(day(cook).strays.map(({ kind }) => kind)).toEqual(["cooking-excepted"]);
  });

  test("there is none for holding, and none for a reading that was taken back", () => {
    const cook = excepted(undercooked, "Odalys Brandt");
    cook.note("cooking-excepted", { reading: cook.held(1, "KT", "hot", "59.9"), by: "Odalys Brandt", note: "" });
    expect(blocked(cook)).toEqual(["KT held-past"]);
  });
});

// held hot at 60 °C, cold at 4 °C: US consumer page on high-risk foods
describe("holding", () => {
  test.each([
    ["hot", "60", []],
    ["hot", "59.9", ["KT held-past"]],
    ["cold", "4", []],
    ["cold", "4.1", ["KT held-past"]],
  ] as const)("%s at %s °C", (held, celsius, expected) => {
    const cook = cooked();
    cook.held(1, "KT", held, celsius);
    expect(blocked(cook)).toEqual(expected);
  });

  test("of readings apart that disagree neither counts; a warm fridge is no hot pot", () => {
    const cook = cooked();
    cook.held(1, "KT", "hot", "65");
    cook.held(1, "KT", "hot", "55");
    cook.held(1, "MV", "cold", "3");
    expect(blocked(cook)).toEqual(["KT apart"]);
  });

  // "past a holding limit: block", with no exception, unlike the core, which a passing reading frees
  test("past its limit once, it stays so when it is read again warm enough; taken back, it never was", () => {
    const cook = cooked();
    const cool = cook.held(1, "KT", "hot", "55");
    cook.held(1, "KT", "hot", "65", [cool]);
    expect(blocked(cook)).toEqual(["KT held-past"]);
    cook.change(1, "KT", "KTC");
    cook.core(1, "KTC", "75");
    cook.out(1, "KTC");
    expect(blocked(cook)).toEqual([]);
    const other = cooked();
    other.void(other.held(1, "KT", "hot", "6.5"));
    other.held(1, "KT", "hot", "65");
    expect(blocked(other)).toEqual([]);
  });

  test("held without a limit for it: nothing says that it may be served", () => {
    const cook = cooked({ limits: limitTables.consumer.filter(({ kind }) => kind === "cooking").slice(0, 1) });
    cook.held(1, "KT", "hot", "90");
    expect(blocked(cook)).toEqual(["KT held-without-limit"]);
  });
});

// out for 1 h where nobody measured the air: the two-hour rule for consumers
describe("two clocks, never merged", () => {
  const out = (first: string, second = first) => {
    const cook = hot();
    cook.left(1, "KT", first);
    cook.left(1, "MV", second);
    return cook;
  };

  test.each([
    ["11:57", "not-yet", 1, 12],
    ["11:56", "in", 0, 11],
    ["11:45", "in", 0, 0],
    ["11:44", "past", 0, -1],
  ] as const)("left at %s: %s", (left, window, opensIn, shutsIn) => {
    expect(wave(out(left))).toMatchObject({ window, opensIn, shutsIn, blocked: [] });
  });

  test("reaching an hour out blocks; a minute before it only warns", () => {
    expect([wave(out("11:01")).safeFor, blocked(out("11:01"))]).toEqual([1, []]);
    expect([wave(out("11:00")).safeFor, blocked(out("11:00"))]).toEqual([0, ["KT out-past", "MV out-past"]]);
  });

  test("the wave goes by its latest pot to open, and by its earliest to shut", () => {
    expect(wave(out("11:44", "11:58"))).toMatchObject({ window: "past", opensIn: 2, shutsIn: -1 });
    expect(wave(out("11:50", "11:58"))).toMatchObject({ window: "not-yet", opensIn: 2, shutsIn: 5 });
  });

  test("a pot of which nobody knows when it left leaves the window open to question, and is missing", () => {
    const cook = hot();
    cook.left(1, "KT", "11:50");
    expect(wave(cook)).toMatchObject({ window: "unknown", opensIn: null, shutsIn: 5 });
    expect(wave(cook).missing).toEqual([{ what: "left", pot: "MV" }]);
  });

  test("of two times written apart the earlier counts; a later entry that names both corrects them", () => {
    const cook = out("11:50");
    const apart = [cook.left(1, "KT", "11:40"), ...(wave(cook).pots[0]?.latestLeft ?? [])];
    expect(wave(cook)).toMatchObject({ window: "past", shutsIn: -5 });
    cook.left(1, "KT", "11:52", [...new Set(apart)]);
    expect(wave(cook)).toMatchObject({ window: "in", shutsIn: 5 });
  });

  test("a later time does not undo one past the limit; a core that was read hot again between them does", () => {
    // an hour out of temperature: the stricter row of the US two-hour rule, as in test/model/safety-check
    const late = at("12:30");
    const cook = out("11:20");
    expect(blocked(cook, 1, late)).toContain("KT out-past");
    cook.left(1, "KT", "12:25", wave(cook).pots[0]?.latestLeft ?? []);
    expect(blocked(cook, 1, late)).toContain("KT out-past");
    const cores = wave(cook).pots[0]?.cores.map(({ entry }) => entry.id) ?? [];
    cook.core(1, "KT", "76", { after: cores });
    cook.left(1, "KT", "12:28", wave(cook).pots[0]?.latestLeft ?? []);
    expect(blocked(cook, 1, late)).not.toContain("KT out-past");
  });

  // time is a control only while no temperature is: FDA Food Code 3-501.19, from memory
  test("cooked, and nobody wrote when it left the heat or what it is held at: it waits for that", () => {
    const cook = hot();
    expect(blocked(cook)).toEqual(["KT out-unknown", "MV out-unknown"]);
    cook.left(1, "KT", "11:50");
    cook.held(1, "MV", "hot", "65");
    // a reading of which nobody said when it was taken starts no clock
    expect(blocked(cook)).toEqual(["MV out-unknown"]);
    cook.held(1, "MV", "hot", "65", [], "11:30");
    expect([blocked(cook), wave(cook).safeFor]).toEqual([[], 30]);
  });

  test("held hot with readings in time it may stand longer than an hour; the time runs from the last of them", () => {
    const cook = out("10:30", "11:50");
    expect(blocked(cook)).toEqual(["KT out-past"]);
    const first = cook.held(1, "KT", "hot", "66", [], "11:15");
    const second = cook.held(1, "KT", "hot", "64", [first], "11:45");
    expect([blocked(cook), wave(cook).safeFor]).toEqual([[], 45]);
    expect(blocked(cook, 1, at("12:45"))).toContain("KT out-past");
    cook.void(first);
    // without it the second came 75 minutes after the pot had left, too late to mean anything
    expect(blocked(cook)).toEqual(["KT out-past"]);
    cook.void(second);
    expect(blocked(cook)).toEqual(["KT out-past"]);
  });

  // food does not warm by itself: common practice, no source
  test("kept hot and never said to have left: not read for an hour it waits to be read again, and serves once it passes", () => {
    const cook = hot();
    cook.left(1, "MV", "11:50");
    const first = cook.held(1, "KT", "hot", "66", [], "10:50");
    expect(blocked(cook)).toEqual(["KT out-past"]);
    const second = cook.held(1, "KT", "hot", "65", [first], "11:58");
    expect([blocked(cook), wave(cook).safeFor]).toEqual([[], 50]);
    // once it left, nothing but time counts, from then on; and if nobody had read it for an hour by then, from the last reading
    cook.left(1, "KT", "11:59");
    expect(blocked(cook, 1, at("12:59"))).toContain("KT out-past");
    cook.void(second);
    expect(blocked(cook)).toEqual(["KT out-past"]);
  });

  test("a reading after the hour, or one past its limit, does not start the time anew", () => {
    const late = out("10:59", "11:50");
    late.held(1, "KT", "hot", "70", [], "11:59");
    expect(blocked(late)).toEqual(["KT out-past"]);
    const cool = out("11:10", "11:50");
    cool.held(1, "KT", "hot", "55", [], "11:40");
    expect(blocked(cool, 1, at("12:10"))).toEqual(["KT held-past", "KT out-past"]);
  });

  test("what was too cold under one wave is not served with another that the batch serves", () => {
    const cook = new Cook({}, [
      { wave: 1, pots: ["KT"] },
      { wave: 2, pots: ["KT"] },
    ]);
    cook.core(1, "KT", "76");
    for (const number of [1, 2]) cook.out(number, "KT");
    cook.held(1, "KT", "hot", "40");
    expect([blocked(cook), blocked(cook, 2)]).toEqual([["KT held-past"], ["KT held-past"]]);
    expect(wave(cook, 2).pots[0]?.holdings).toEqual([]);
  });

  test("a plan without a window has none", () => {
    const cook = cooked({ pace: { ...new Cook().plan.pace, windowFrom: null, windowTo: null } });
    cook.left(1, "KT", "11:00");
    expect(wave(cook).window).toBe("none");
  });

  test("of rows whose conditions nobody measured none allows it", () => {
    const cook = cooked({
      limits: [...limitTables["food-service"].filter((row) => row.kind === "out" && row.from === "cold")],
    });
    expect(blocked(cook)).toEqual(["KT out-without-limit", "MV out-without-limit"]);
  });
});

describe("batches that change", () => {
  test("what comes in the place of a pot inherits nothing, neither readings nor times", () => {
    const cook = cooked();
    cook.change(1, "KT", "KTC");
    expect(blocked(cook)).toEqual(["KTC not-read"]);
    expect(wave(cook).pots.map(({ pot, trays, left }) => [pot, trays, left !== null])).toEqual([
      ["KT", [], true],
      ["KTC", [1, 2, 3], false],
      ["MV", [1, 2, 3], true],
    ]);
    cook.core(1, "KTC", "76");
    expect(blocked(cook)).toEqual(["KTC out-unknown"]);
    cook.out(1, "KTC");
    expect(blocked(cook)).toEqual([]);
  });

  test("for some trays only: the wave is served from both, and both have to pass", () => {
    const cook = cooked();
    cook.change(1, "KT", "KTC", [2]);
    expect(
      wave(cook)
        .pots.slice(0, 2)
        .map(({ pot, trays }) => [pot, trays]),
    ).toEqual([
      ["KT", [1, 3]],
      ["KTC", [2]],
    ]);
    expect(blocked(cook)).toEqual(["KTC not-read"]);
  });

  test("of the whole wave, once a tray was served: that tray keeps the pot that it came from, a later one does not", () => {
    const cook = cooked();
    cook.turn(1, "served");
    cook.change(1, "KT", "KTC", [], [1]);
    cook.person(4, "late", 1);
    expect(
      wave(cook)
        .pots.slice(0, 2)
        .map(({ pot, trays }) => [pot, trays]),
    ).toEqual([
      ["KT", [1]],
      ["KTC", [2, 3, 4]],
    ]);
  });

  test("a change of a change, and one that was taken back", () => {
    const cook = cooked();
    cook.change(1, "KT", "KTC");
    const second = cook.change(1, "KTC", "KTD");
    expect(blocked(cook)).toEqual(["KTD not-read"]);
    cook.void(second);
    expect(blocked(cook)).toEqual(["KTC not-read"]);
  });

  test("a batch below its limit blocks no more once no tray is served from it", () => {
    const cook = cooked();
    cook.core(2, "PW", "60");
    cook.core(2, "RZ", "75");
    cook.core(2, "PWC", "75");
    cook.out(2, "PWC");
    cook.change(2, "PW", "PWC");
    expect(blocked(cook, 2)).toEqual([]);
  });
});

describe("a batch that changes while its wave is tasted", () => {
  const begun = () => {
    const cook = hot();
    cook.left(1, "MV", "11:50");
    cook.left(1, "KT", "10:50");
    expect(blocked(cook)).toEqual(["KT out-past"]);
    cook.change(1, "KT", "KTC", [], [1, 2]);
    return cook;
  };

  test("trays that were begun keep their food, the others wait for the new batch alone", () => {
    const cook = begun();
    expect(
      wave(cook)
        .pots.slice(0, 2)
        .map(({ pot, trays, toServe }) => [pot, trays, toServe]),
    ).toEqual([
      ["KT", [1, 2], []],
      ["KTC", [3], [3]],
    ]);
    expect(blocked(cook)).toEqual(["KTC not-read"]);
    cook.core(1, "KTC", "75");
    cook.left(1, "KTC", "11:58");
    expect([blocked(cook), wave(cook).missing]).toEqual([[], []]);
  });

  test("a second change takes along only what the first one had left", () => {
    const cook = begun();
    cook.person(4, "late", 1);
    cook.change(1, "KTC", "KTD", [], [3]);
    expect(wave(cook).pots.map(({ pot, trays, toServe }) => [pot, trays, toServe])).toEqual([
      ["KT", [1, 2], []],
      ["KTC", [3], []],
      ["KTD", [4], [4]],
      ["MV", [1, 2, 3, 4], [1, 2, 3, 4]],
    ]);
  });

  test("in a circle each of them has to pass, and the wave says so; taken back, the other one counts", () => {
    const cook = cooked();
    cook.change(1, "KT", "KTC");
    const back = cook.change(1, "KTC", "KT");
    expect([wave(cook).circle, blocked(cook)]).toEqual([["KT", "KTC"], ["KTC not-read"]]);
    cook.void(back);
    expect([wave(cook).circle, blocked(cook)]).toEqual([[], ["KTC not-read"]]);
    expect(wave(cook).pots.find(({ pot }) => pot === "KT")?.trays).toEqual([]);
    cook.change(1, "MV", "MV");
    expect([wave(cook).circle, wave(cook).pots.at(-1)?.trays]).toEqual([["MV"], [1, 2, 3]]);
  });
});

describe("trays, people, halts and papers", () => {
  test("what is done to a tray; a check that found something stands until a later one", () => {
    const cook = cooked();
    cook.turn(1, "filled");
    const wrong = cook.turn(1, "checked", false);
    const turns = () => day(cook).trays.get(1)?.turns;
    expect([turns()?.filled.done, turns()?.checked.sound, turns()?.served.done]).toEqual([true, false, false]);
    cook.turn(1, "checked", true, [wrong]);
    expect(turns()?.checked).toMatchObject({ done: true, sound: true });
  });

  test("late, and with the next wave: the tray is served from the pots of that wave", () => {
    const cook = cooked();
    const late = cook.person(2, "late", 2);
    expect([wave(cook).trays, wave(cook, 2).trays]).toEqual([
      [1, 3],
      [2, 4, 5, 6, 7],
    ]);
    cook.person(2, "here", null, [late]);
    expect(wave(cook).trays).toEqual([1, 2, 3]);
  });

  test("notes that were written apart and name different waves are not settled by chance", () => {
    const cook = cooked();
    cook.person(2, "late", 2);
    cook.person(2, "late", 1);
    expect(day(cook).trays.get(2)).toMatchObject({ wave: null, person: { what: "late", apart: true } });
  });

  test("a wave that the plan does not have is said of the tray, and no wave has it", () => {
    const cook = cooked();
    const noted = cook.person(2, "late", 3);
    const noWave = () => day(cook).trays.get(2)?.person.noWave;
    expect([noWave(), wave(cook).trays, wave(cook, 2).trays]).toEqual([3, [1, 3], [4, 5, 6, 7]]);
    cook.person(2, "late", 2, [noted]);
    expect([noWave(), wave(cook, 2).trays]).toEqual([null, [2, 4, 5, 6, 7]]);
  });

  test("a halt holds back every wave until each is ended", () => {
    const cook = cooked();
    const halts = [cook.note("serving-halted", { why: "person" }), cook.note("serving-halted", { why: "room" })];
    expect(blocked(cook)).toEqual(["halted", "halted"]);
    cook.note("serving-resumed", { halts: halts.slice(0, 1), note: "" });
    expect(blocked(cook)).toEqual(["halted"]);
    cook.note("serving-resumed", { halts, note: "" });
    expect(blocked(cook)).toEqual([]);
  });

  test("a sheet with the key is out until somebody notes that it is back", () => {
    const cook = cooked();
    expect(day(cook).sheets).toEqual([]);
    cook.note("paper-printed", { paper: "kitchen-by-tray", reprint: false });
    expect(day(cook).sheets).toEqual([{ paper: "kitchen-by-tray", back: [] }]);
    cook.note("sheet-returned", { paper: "kitchen-by-tray", note: "" });
    expect(day(cook).sheets[0]?.back).toHaveLength(1);
  });

  test("an older lock has no labels, and nothing is judged", () => {
    const cook = new Cook({}, null);
    cook.core(1, "KT", "20");
    expect(day(cook)).toMatchObject({ labeled: false, waves: [], strays: [{ kind: "core-read" }] });
  });

  test("what is written after the reveal counts no more", () => {
    const cook = cooked();
    cook.facts.push(
      cook.writer.reveal({
        "22222222-2222-4222-8222-222222222222": cook.writer.head("22222222-2222-4222-8222-222222222222"),
      }),
    );
    cook.core(1, "KT", "20");
    cook.note("paper-printed", { paper: "kitchen-by-tray", reprint: false });
    expect(blocked(cook)).toEqual([]);
    expect(day(cook).sheets).toEqual([]);
  });
});

test("in every order and twice over: the same day", () => {
  const cook = cooked();
  const first = cook.core(2, "PW", "71");
  const second = cook.core(2, "PW", "76", { after: [first] });
  cook.core(2, "RZ", "73");
  cook.void(cook.core(2, "RZ", "20"));
  cook.change(2, "RZ", "RZC", [5]);
  cook.left(1, "KT", "11:50");
  cook.left(1, "KT", "11:48");
  cook.held(1, "MV", "hot", "59");
  cook.person(4, "late", 1);
  cook.turn(4, "served");
  cook.note("serving-halted", { why: "food" });
  cook.core(2, "PW", "75", { after: [second] });
  const expected = day(cook);
  const last = cook.facts.length;
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...cook.facts, ...cook.facts.slice(0, last)], { minLength: 2 * last }),
      (facts) => {
        expect(dayOf(foldStudy(facts), noon)).toEqual(expected);
      },
    ),
    { numRuns: 50 },
  );
});
