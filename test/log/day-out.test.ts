import { describe, expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf } from "../../src/log/kitchen-day.ts";
import { limitTables } from "../../src/model/safety-limit.ts";
import { at, Cook, poultry } from "./kitchen-example.ts";

// The two-hour rule for consumers (US page on high-risk foods): an hour out where nobody measured the air. Held hot at
// 60 °C, cold at 4 °C by the same page. From cold 6 h if never above 21 °C, from hot 4 h: Minnesota Rules 4626.0408. All as in
// test/model/safety-check.

/** Wave 1 with both cores met, and pot MV just out, so that everything is about KT. */
function cook(plan: ConstructorParameters<typeof Cook>[0] = {}): Cook {
  const made = new Cook(plan);
  made.core(1, "KT", "75");
  made.core(1, "MV", "75");
  return made;
}
function wave(made: Cook, clock: string, number = 1) {
  const found = dayOf(foldStudy(made.facts), at(clock))?.waves.find((each) => each.wave === number);
  return found ?? expect.fail("no such wave");
}
/** What blocks pot KT of wave 1 at a time of the clock. */
const blocks = (made: Cook, clock: string): string[] =>
  wave(made, clock).blocked.flatMap((block) => ("pot" in block && block.pot === "KT" ? [block.why] : []));

describe("nothing written of a pot", () => {
  test("its wave waits, whatever was read of its core", () => {
    expect(blocks(cook(), "12:00")).toEqual(["out-unknown"]);
  });

  test.each([
    ["when it left the heat", (made: Cook) => made.left(1, "KT", "11:59")],
    ["when it left the cold", (made: Cook) => made.left(1, "KT", "11:59", [], "cold")],
    ["a reading of hot holding", (made: Cook) => made.held(1, "KT", "hot", "60", [], "11:59")],
    ["a reading of cold holding", (made: Cook) => made.held(1, "KT", "cold", "4", [], "11:59")],
  ])("freed by %s", (_, write) => {
    const made = cook();
    const entry = write(made);
    expect(blocks(made, "12:00")).toEqual([]);
    made.void(entry);
    expect(blocks(made, "12:00")).toEqual(["out-unknown"]);
  });

  test("not by a reading past its limit, by one of another wave, nor by one of which nobody knows when it was", () => {
    const cool = cook();
    cool.held(1, "KT", "hot", "59.9", [], "11:59");
    expect(blocks(cool, "12:00")).toEqual(["held-past", "out-unknown"]);
    const made = cook();
    made.held(2, "KT", "hot", "65", [], "11:59");
    made.held(1, "KT", "hot", "65");
    expect(blocks(made, "12:00")).toEqual(["out-unknown"]);
  });

  test("its core comes first; raw by design is timed as well", () => {
    const raw = new Cook({
      limits: poultry.filter(({ kind }) => kind !== "cooking"),
      cautionsApplying: ["undercooked"],
    });
    expect(blocks(raw, "12:00")).toEqual(["out-unknown"]);
    expect(blocks(new Cook(), "12:00")).toEqual(["not-read"]);
  });

  test("where the plan has no limit of time, or nothing is cooked through, nobody has to write it", () => {
    expect(blocks(cook({ limits: poultry.filter(({ kind }) => kind !== "out") }), "12:00")).toEqual([]);
    expect(blocks(cook({ uncooked: true }), "12:00")).toEqual([]);
  });
});

describe("held after it left the heat", () => {
  test("the time counts from the last reading that passes, and minutes left with it", () => {
    const made = cook();
    made.left(1, "KT", "10:00");
    const first = made.held(1, "KT", "hot", "65", [], "10:40");
    made.held(1, "KT", "hot", "63", [first], "11:30");
    expect(blocks(made, "12:29")).toEqual([]);
    expect(wave(made, "12:29").safeFor).toBe(1);
    expect(blocks(made, "12:30")).toEqual(["out-past"]);
    expect(wave(made, "12:30").blocked).toContainEqual(
      expect.objectContaining({ by: "held", from: "hot", minutes: 60 }),
    );
  });

  test("what it was held in it may leave; a second entry of that does not give more time", () => {
    const made = cook();
    const heat = made.left(1, "KT", "10:00");
    made.held(1, "KT", "hot", "65", [], "10:50");
    const holding = made.left(1, "KT", "11:20", [heat]);
    made.left(1, "KT", "12:10", [holding]);
    expect(blocks(made, "12:19")).toEqual([]);
    expect(blocks(made, "12:20")).toEqual(["out-past"]);
  });

  test("a reading before it left the heat takes nothing off", () => {
    const made = cook();
    made.held(1, "KT", "hot", "65", [], "11:00");
    made.left(1, "KT", "11:40");
    expect([blocks(made, "12:39"), blocks(made, "12:40")]).toEqual([[], ["out-past"]]);
  });
});

describe("what was past stays past", () => {
  test("a reading that passes, written after the time had run out, starts nothing anew", () => {
    const made = cook();
    made.left(1, "KT", "10:00");
    made.held(1, "KT", "hot", "65", [], "11:00");
    expect(blocks(made, "11:01")).toEqual(["out-past"]);
    made.left(1, "KT", "11:02", []);
    made.held(1, "KT", "hot", "70", [], "11:05");
    expect(blocks(made, "11:06")).toEqual(["out-past"]);
  });

  test("nor does leaving the heat, an hour after the last reading of its holding", () => {
    const made = cook();
    made.held(1, "KT", "hot", "65", [], "10:00");
    made.left(1, "KT", "11:00");
    expect(blocks(made, "11:01")).toEqual(["out-past"]);
  });

  test("heated through and read, it leaves the heat anew; a device that knew nothing of that reading changes nothing", () => {
    const made = cook();
    const first = made.left(1, "KT", "10:00");
    made.held(1, "KT", "hot", "65", [], "10:30");
    made.core(1, "KT", "76");
    made.note(
      "heat-left",
      { wave: 1, pot: "KT", left: "2026-05-03T12:00:00.000Z", from: "hot", after: [first], note: "" },
      "66666666-6666-4666-8666-666666666666",
    );
    expect(blocks(made, "12:01")).toContain("out-past");
    made.left(1, "KT", "12:00", [first]);
    expect(blocks(made, "12:01")).not.toContain("out-past");
  });

  test("a passing reading frees no pot that was too cold before, in whatever time", () => {
    const made = cook();
    const cool = made.held(1, "KT", "hot", "50", [], "11:40");
    made.held(1, "KT", "hot", "70", [cool], "11:50");
    expect(blocks(made, "12:00")).toEqual(["held-past"]);
  });
});

describe("from the cold", () => {
  const limits = limitTables["food-service"].filter((row) => row.kind !== "cooking" || row.food.startsWith("Poultry"));
  const known = limits.map((row) => (row.kind === "out" && row.from === "cold" ? { ...row, foodAtMost: null } : row));

  test("its own row counts: 6 h, where from the heat 4 h do", () => {
    const cold = cook({ limits: known });
    cold.left(1, "KT", "06:00", [], "cold");
    expect([blocks(cold, "11:59"), blocks(cold, "12:00")]).toEqual([[], ["out-past"]]);
    const hot = cook({ limits: known });
    hot.left(1, "KT", "06:00");
    expect([blocks(hot, "09:59"), blocks(hot, "10:00")]).toEqual([[], ["out-past"]]);
  });

  test("if its row asks how warm the food got, which nobody measured: out it is not served, held it is", () => {
    const out = cook({ limits });
    out.left(1, "KT", "11:50", [], "cold");
    expect(blocks(out, "12:00")).toEqual(["out-without-limit"]);
    const held = cook({ limits });
    held.held(1, "KT", "cold", "5", [], "11:50");
    expect(blocks(held, "12:00")).toEqual([]);
  });
});
