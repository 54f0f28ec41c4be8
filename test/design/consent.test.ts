import { describe, expect, test } from "vitest";
import { consentOf, sittingMinutes } from "../../src/design/consent.ts";
import type { Plan } from "../../src/model/plan.ts";
import { allowedBelow } from "../../src/model/undercooked.ts";
import { choicePlans, linePlan, rankingPlan, readyPlan } from "./scenario.ts";

const said = (plan: Plan): string =>
  consentOf(plan)
    .lines.map(({ text }) => text)
    .join(" ");

describe("what people are told before they agree", () => {
  test.each([...choicePlans(), ["line scale", linePlan()] as const, ["ranking", rankingPlan()] as const])(
    "%s: nothing of products, question or decision is in it",
    (_, plan) => {
      const secret = { name: "zzproduct", preparation: "zzsteam" };
      const words = { title: "zztitle", objective: "zzgoal", ifYes: "zzyes", ifNo: "zzno", standsFor: "zzwhom" };
      const hidden = { ...plan, ...words, products: plan.products.map((product) => ({ ...product, ...secret })) };
      expect(said(hidden)).toBe(said(plan));
      expect(JSON.stringify(consentOf(hidden))).not.toMatch(/zz/);
    },
  );

  test("its version changes with each word that somebody reads, and with nothing else", () => {
    const version = (changes: Partial<Plan>) => consentOf(readyPlan(changes)).version;
    const { serving } = readyPlan();
    const versions = [
      version({}),
      version({ served: "soup" }),
      version({ contact: "Front desk" }),
      version({ serving: { ...serving, swallow: "spit" } }),
      version({ serving: { ...serving, pauseSeconds: 300 } }),
    ];
    expect(new Set(versions).size).toBe(versions.length);
    expect(version({ title: "Another title", place: "Elsewhere" })).toBe(version({}));
  });

  test("where a clock runs while somebody chews, it says that they may stop chewing", () => {
    const atOnce = linePlan({
      scale: {
        ...linePlan().scale,
        attributes: linePlan().scale.attributes.map((each) => ({ ...each, moment: { at: "first-bite" } })),
      },
    });
    expect(said(linePlan())).toMatch(/whenever you like/);
    expect(said(atOnce)).not.toMatch(/whenever you like/);
  });
});

test("the time of a sitting by hand, in fives of minutes", () => {
  const { serving } = readyPlan();
  const one = readyPlan({ serving: { ...serving, pauseSeconds: 45 } });
  // 120 s to read; warm-up and three cups of 30 s with three pauses of 45 s; one answer of 15 s: 390 s
  expect(sittingMinutes(one)).toBe(10);
  // 120; thirteen cups and twelve pauses, 930; four answers, 60: 1,110 s
  expect(sittingMinutes({ ...one, repeats: 4 })).toBe(20);
  expect(sittingMinutes({ ...one, repeats: 4, repeatsIn: "sessions" })).toBe(10);
});

test("only food that is undercooked by design has somebody who allows it below its limit, and by name", () => {
  const named = { responsible: " Odalys Brandt " };
  expect(allowedBelow(readyPlan(named))).toBeNull();
  expect(allowedBelow(readyPlan({ cautionsApplying: ["undercooked"] }))).toBeNull();
  expect(allowedBelow(readyPlan({ ...named, cautionsApplying: ["undercooked"] }))).toBe("Odalys Brandt");
});
