import { expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf } from "../../src/log/kitchen-day.ts";
import { celsiusOf, type Entry, saidOf } from "../../src/organizer/reading-entry.ts";
import { onDayWords } from "../../src/words/en/organizer-on-day.ts";
import { at, Cook } from "../log/kitchen-example.ts";

const words = onDayWords.reading;
const said = (cook: Cook, held: "hot" | "cold", celsius: string) => {
  const wave = dayOf(foldStudy(cook.facts), at("12:00"))?.waves[0];
  if (!wave) throw new Error("no wave");
  const entry: Entry = {
    kind: "holding-read",
    body: { wave: 1, pot: "KT", held, celsius, read: null, after: [], note: "" },
  };
  return saidOf(entry, cook.plan, wave);
};

// held hot at 60 °C: US consumer page on high-risk foods, as in test/model/safety-check
test("of a pot that was past its limit of holding a warm reading is no all-clear, unless it was taken back", () => {
  const cook = new Cook();
  expect(said(cook, "hot", "60")).toEqual({ text: words.passes("KT", "60"), stop: false, allow: null });
  const cool = cook.held(1, "KT", "hot", "59.9");
  expect(said(cook, "hot", "65")).toEqual({ text: words.pastBefore("KT", "hot"), stop: true, allow: null });
  expect(said(cook, "cold", "3").stop).toBe(false);
  cook.void(cool);
  expect(said(cook, "hot", "65").stop).toBe(false);
});

test("held where the plan limits only cooking: said as the stop that it is; without any limits it is kept", () => {
  const cooking = new Cook().plan.limits.filter(({ kind }) => kind === "cooking");
  expect(said(new Cook({ limits: cooking }), "hot", "90")).toMatchObject({
    text: words.noHolding("KT", "hot"),
    stop: true,
  });
  expect(said(new Cook({ limits: [] }), "hot", "90")).toMatchObject({ text: words.kept("KT", "90"), stop: false });
});

// 160 °F = (160 - 32) * 5/9 = 71.1 °C, below the 74 °C of poultry, and would pass it as 160 °C
test("degrees Fahrenheit, and degrees that lost their dot, are not taken for degrees Celsius", () => {
  const typed = ["74", "74,5", "-18.5", "\u22124", "100", "119.99", "120", "120.1", "160", "165", "745", "750"];
  expect(typed.map(celsiusOf)).toEqual(["74", "74.5", "-18.5", "-4", "100", "119.99", "120", ...Array(5).fill(null)]);
});
