import { describe, expect, test } from "vitest";
import { atOnce, cupsOnTray, dayTime, samplesTasted } from "../../src/design/day-time.ts";
import { planFlags, timeFlags } from "../../src/design/flags.ts";
import { openParts } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import { juicier, linePlan, readyPlan } from "./scenario.ts";

/** Every expected number of this file is worked out by hand beside it; the paces are common practice, no source. */

type Pace = Partial<Plan["pace"]>;
const paced = (pace: Pace, changes: Partial<Plan> = {}): Plan => {
  const plan = readyPlan(changes);
  return { ...plan, pace: { ...plan.pace, ...pace } };
};
/** Triangles for waves of 12, a warm-up first, 30 s pause, 30 s a taste, a tray every 20 s. */
const day = (pace: Pace = {}, changes: Partial<Plan> = {}) => dayTime(paced(pace, changes));

describe("cups at the table", () => {
  test.each<[Plan["method"], number]>([
    ["triangle", 3],
    ["duo-trio", 3],
    ["tetrad", 4],
    ["paired-difference", 2],
    ["three-alternative", 3],
    ["same-different", 2],
    ["a-not-a", 2],
    ["paired-preference", 2],
  ])("%s: %d on a tray, an uncoded one among them (each method's own description)", (method, cups) => {
    expect(cupsOnTray(readyPlan({ method, properties: [juicier] }))).toBe(cups);
    expect(cupsOnTray(readyPlan({ method, properties: [], products: [] }))).toBe(cups);
  });
  test("every product on a scale, or as many as a tray holds; repeats of a sitting add up, of sessions not", () => {
    expect(cupsOnTray(linePlan())).toBe(3);
    expect(cupsOnTray(linePlan({ perTray: 2 }))).toBe(2);
    expect(samplesTasted(readyPlan({ repeats: 2 }))).toBe(6);
    expect(samplesTasted(readyPlan({ repeats: 2, repeatsIn: "sessions" }))).toBe(3);
  });
});

describe("the last cup of a wave", () => {
  test("twelve trays 20 s apart, then a warm-up and three samples: 11 x 20 + 3 x 60 s = 400 s", () => {
    const { largest, lastCupSeconds, sittingSeconds, waveSeconds } = day();
    // one person: 3 x 60 s to the last cup, 30 s to taste it and 15 s to answer
    expect([largest, lastCupSeconds, sittingSeconds, waveSeconds]).toEqual([12, 400, 225, 445]);
  });
  test("two triangles in a sitting: 6 cups after the warm-up, and one answer between", () => {
    expect(day({}, { repeats: 2 }).lastCupSeconds).toBe(11 * 20 + 6 * 60 + 15);
  });
  test("a scale asks more of each sample: 10 s for each further question, and never less than its last moment", () => {
    const [juicy] = linePlan().scale.attributes;
    if (!juicy) throw new Error("the scenario judges juiciness");
    const asked = (moments: (typeof juicy)["moment"][]): Plan =>
      linePlan({
        waves: [],
        serving: { ...linePlan().serving, warmUp: false, pauseSeconds: 30 },
        scale: { lengthMm: 120, attributes: moments.map((moment) => ({ ...juicy, moment, further: [] })) },
      });
    const first = { at: "first-bite" } as const;
    // three samples: two times tasting and pausing before the last
    expect(dayTime(asked([first])).lastCupSeconds).toBe(2 * (30 + 30));
    expect(dayTime(asked([first, first, first])).lastCupSeconds).toBe(2 * (30 + 20 + 30));
    expect(dayTime(asked([first, { at: "after", seconds: 90 }])).lastCupSeconds).toBe(2 * (90 + 10 + 30));
  });
  test("without a wave it is that of the seats, and without either of one person", () => {
    expect(atOnce({ waves: [], pace: readyPlan().pace })).toBeNull();
    expect(day({ seats: 6 }, { waves: [] }).lastCupSeconds).toBe(5 * 20 + 180);
    expect(day({ seats: 60 }, { waves: [] }).largest).toBe(24);
    expect(day({}, { waves: [] }).lastCupSeconds).toBe(180);
  });
});

describe("the last cup against the sensory window (late places would be colder: position stands for temperature)", () => {
  test("4 to 15 minutes: 4 + 400 s / 60 is 10.7, in time; to 10 minutes it is not", () => {
    const inTime = day({ windowFrom: 4, windowTo: 15 });
    expect(inTime.lastCupAt).toBeCloseTo(4 + 400 / 60, 12);
    expect([inTime.past, inTime.remedy]).toEqual([false, { people: null, samples: null, pauseSeconds: null }]);
    expect(day({ windowFrom: 4, windowTo: 10 }).past).toBe(true);
    expect(timeFlags(paced({ windowFrom: 4, windowTo: 10 }))).toMatchObject([{ what: "last-cup", to: 10 }]);
  });
  test("what would do, each alone: 360 s of room are (360 - 180) / 20 + 1 = 10 people; no shorter pause is usual", () => {
    expect(day({ windowFrom: 4, windowTo: 10 }).remedy).toEqual({ people: 10, samples: null, pauseSeconds: null });
    // a pause of 60 s: 220 + 3 x 90 = 490 s, of 45 s 445 s, of 40 s 430 s
    const slow = { serving: { ...readyPlan().serving, pauseSeconds: 60 } };
    expect(day({ windowFrom: 0, windowTo: 7.4 }, slow).remedy).toMatchObject({ people: 9, pauseSeconds: 40 });
    // two triangles, 595 s; one of them 400 s
    expect(day({ windowFrom: 0, windowTo: 7 }, { repeats: 2 }).remedy).toMatchObject({ samples: 3 });
  });
  test("no single change is enough: 60 s are less than the cups of one person take", () => {
    const { past, remedy } = day({ windowFrom: 0, windowTo: 1 });
    expect([past, remedy]).toEqual([true, { people: null, samples: null, pauseSeconds: null }]);
  });
  test("no window, no warning; one that ends before it begins keeps the plan open", () => {
    expect([day().lastCupAt, day().past]).toEqual([null, false]);
    const open = (pace: Pace) => openParts(paced(pace)).map(({ what }) => what);
    expect(open({ windowFrom: 10, windowTo: 4 })).toEqual(["window"]);
    expect(open({ windowFrom: 4, windowTo: 10 })).toEqual([]);
  });
});

describe("flags that keep nobody from locking (mistakes 12 to 15 of a kitchen's list)", () => {
  test("six samples of a hot savory food a sitting, after a study of pork (abstract seen); seven are too many", () => {
    expect(timeFlags(paced({}, { repeats: 2 }))).toEqual([]);
    expect(timeFlags(paced({}, { repeats: 3 }))).toEqual([{ what: "many-samples", samples: 9, most: 6 }]);
    expect(timeFlags(paced({ mostSamples: 9 }, { repeats: 3 }))).toEqual([]);
  });
  test("thirty seconds between samples are usual (a page on preparing samples)", () => {
    const pause = (pauseSeconds: number) => ({ serving: { ...readyPlan().serving, pauseSeconds } });
    expect(timeFlags(paced({}, pause(29)))).toEqual([{ what: "short-pause", seconds: 29 }]);
    expect(timeFlags(paced({}, pause(30)))).toEqual([]);
  });
  test("looks that are not masked, and a product from one pot", () => {
    const plan = readyPlan({ looks: "differ" });
    const [current] = plan.products;
    const waves = plan.waves.map((wave) => ({ ...wave, batches: { ...wave.batches, [current?.id ?? ""]: ["C1"] } }));
    expect(planFlags({ ...plan, waves })).toEqual([{ what: "looks" }, { what: "one-batch", products: ["current"] }]);
    expect(planFlags(readyPlan())).toEqual([]);
  });
});
