import { expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf } from "../../src/log/kitchen-day.ts";
import { entriesFrom, followedBy, latestByThing, temperaturesFile } from "../../src/organizer/day-table.ts";
import { at, Cook } from "../log/kitchen-example.ts";
import { problemOf } from "../problem-of.ts";

const instantOf = (clock: string) => `2026-05-03T${clock}:00.000Z`;
const header = "wave,pot,what,celsius,held_seconds,rest_minutes,time,note";
function dayFrom(cook: Cook) {
  const day = dayOf(foldStudy(cook.facts), 0);
  if (!day) throw new Error("no lock");
  return day;
}

test("a file that was saved here brings nothing new", () => {
  const cook = new Cook();
  const first = cook.core(2, "RZ", "71.0", { note: "too cold" });
  cook.core(2, "RZ", "76", { after: [first] });
  cook.left(2, "RZ", "11:50");
  cook.left(2, "PW", "11:40", [], "cold");
  const held = cook.held(2, "PW", "cold", "3", [], "11:00");
  cook.held(2, "PW", "cold", "3", [held], "11:30");
  // of an older one nobody said when it was read: a file has the time at which it was written down
  cook.held(2, "RZ", "hot", "66");
  cook.note("serving-read", { wave: 2, tray: 4, celsius: "54.5", note: "" });
  cook.turn(4, "served");
  const day = dayFrom(cook);
  const again = entriesFrom(day, temperaturesFile(day, cook.plan), "t.csv", instantOf, at("12:00"));
  expect([again.list, again.same, again.served]).toEqual([[], 8, 1]);
});

test("lines about one pot are one thing, and the first of them follows what the log has", () => {
  const cook = new Cook();
  const first = cook.core(2, "RZ", "71");
  const day = dayFrom(cook);
  const text = [
    header,
    "2,RZ,core,72,,,11:02,",
    "2,RZ,core,76,,,11:06,",
    "2,PW,core,75,,,,",
    "1,KT,held-hot,65,,,,",
  ].join("\n");
  const { list, same } = entriesFrom(day, text, "t.csv", instantOf, at("12:00"));
  const things = list.map(({ thing }) => thing);
  expect([same, new Set(things).size, things[0] === things[1]]).toEqual([0, 3, true]);
  expect(latestByThing(day).get(things[0] ?? "")).toMatchObject([{ id: first }]);
  expect(latestByThing(day).get(things[2] ?? "")).toBeUndefined();
});

test("a reading of what is held says when; one of later today is refused, since it would give more time", () => {
  const read = (time: string) =>
    entriesFrom(dayFrom(new Cook()), `${header}\n1,KT,held-hot,65,,,${time},`, "t.csv", instantOf, at("12:00"));
  expect(read("11:30").list.map(({ entry }) => entry.body)).toMatchObject([{ read: instantOf("11:30") }]);
  expect(read("").list.map(({ entry }) => entry.body)).toMatchObject([{ read: null }]);
  expect(problemOf(() => read("12:30"))).toMatchObject({ code: "csv/bad-value", details: { column: "time" } });
});

test("an old line does not follow what was read since, so that it frees nothing", () => {
  const noon = { id: "noon", at: at("12:00") };
  const early = { id: "early", at: at("10:00") };
  expect(followedBy([early, noon], at("11:00"))).toEqual([early]);
  expect(followedBy([early, noon], at("12:10"))).toEqual([early, noon]);
  expect(followedBy([early, noon], null)).toEqual([early, noon]);
  const { list } = entriesFrom(
    dayFrom(new Cook()),
    `${header}\n2,RZ,core,75,,,11:00,\n2,RZ,core,75,,,,`,
    "t.csv",
    instantOf,
    at("12:00"),
  );
  expect(list.map((each) => each.at)).toEqual([at("11:00"), null]);
});

test("a pot that has yet to leave the heat is refused with its line; clocks may be a little apart", () => {
  const day = dayFrom(new Cook());
  const read = (time: string) =>
    entriesFrom(day, `${header}\n2,RZ,core,75,,,,\n2,RZ,left-heat,,,,${time},`, "t.csv", instantOf, at("12:00"));
  expect(read("12:05").list).toHaveLength(2);
  expect(() => read("23:50")).toThrow(
    expect.objectContaining({
      problem: { code: "csv/bad-value", details: { path: "t.csv", line: 3, column: "time", value: "23:50" } },
    }),
  );
});
