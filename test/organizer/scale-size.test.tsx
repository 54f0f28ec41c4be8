// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { PartPeople } from "../../src/organizer/part-people.tsx";
import { summaryOf } from "../../src/organizer/plan-summary.ts";
import { scatterOf } from "../../src/organizer/scatter.ts";
import { juicinessMarks, lineRecord } from "../analysis/study-records.ts";
import { linePlan } from "../design/scenario.ts";
import { asLead, newLead } from "./lead-page.tsx";

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

let now: Plan;
function Part({ first }: { first: Plan }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  return <PartPeople draft={{ plan, edit: (change) => setPlan(change), flush: async () => {} }} />;
}
const type = (id: string, value: string): void => {
  const field = document.getElementById(id);
  if (!field) throw new Error(`no field ${id}`);
  fireEvent.input(field, { target: { value } });
};
const text = (): string => document.body.textContent?.replaceAll("\u00a0", " ") ?? "";

test("a difference and a scatter become part of the plan, and the sentences follow (R 4.2.2, scale-size-by-r)", () => {
  asLead(lead, <Part first={linePlan({ people: 30 })} />);
  expect(now.scaleSought).toBeNull();
  type("people-difference", "8");
  type("people-deviation", "12");
  type("people-from", "study of 3 May");
  expect(now.scaleSought).toEqual({ difference: 8, deviation: 12, seenDeviation: null, from: "study of 3 May" });
  // pt with ncp at alpha over 3 pairs: 0.5494; pf with ncp: 0.6086
  expect(text()).toContain("With 30 people, a difference of 8 points between two products is found in 55 of 100");
  expect(text()).toContain("they differ in 61 of 100 such studies");
  expect(text()).toContain("supposes a scatter (study of 3 May)");
  expect(summaryOf("people", now).replaceAll("\u00a0", " ")).toMatch(
    /8 points in 55 of 100 such studies, if marks scatter by 12 points \(study of 3 May\)\.$/,
  );
  fireEvent.click(screen.getByText("Leave them out of the plan"));
  expect(now.scaleSought).toBeNull();
});

test("a scale with steps: its figures stand in steps too (of nine steps one is 12.5 points)", () => {
  const plan = linePlan({ people: 30 });
  const [first] = plan.scale.attributes;
  if (!first) throw new Error("the scenario has a property");
  const form = { kind: "steps" as const, labels: new Array<string>(9).fill(""), liking: false };
  asLead(lead, <Part first={{ ...plan, scale: { ...plan.scale, attributes: [{ ...first, form }] } }} />);
  expect(text()).not.toContain(" line ");
  type("people-difference", "8");
  type("people-deviation", "12");
  expect(text()).toContain("Of your 9 steps one is 12.5 points, so that 8 points are 0.64 steps");
  expect(text()).toContain("a difference of 8 points (0.64 steps) between two products is found in 55 of 100");
  expect(summaryOf("people", now).replaceAll("\u00a0", " ")).toContain("8 points (0.64 steps) in 55 of 100");
});

test("two products: 38 are the first number for 8 points at 12 (R 4.2.2, power.t.test, paired, strict)", () => {
  const { products } = linePlan();
  asLead(lead, <Part first={linePlan({ people: 24, products: products.slice(0, 2) })} />);
  type("people-difference", "8");
  type("people-deviation", "12");
  expect(text()).toContain("38 people are the first number that reaches 80 of 100");
});

test("no opened study on this device is said, not shown as an empty list", async () => {
  asLead(lead, <Part first={linePlan()} />);
  fireEvent.click(screen.getByText("Take the scatter from an earlier study"));
  expect(await screen.findByText(/No opened study of a rating scale/)).toBeTruthy();
});

test("the scatter of the third study of the invented kitchen, aov and qchisq of R 4.2.2 (scale-size-by-r)", () => {
  const result = analyse(
    lineRecord(
      linePlan(),
      juicinessMarks.map((row) => [[...row]]),
    ),
    "test",
  );
  const [juicy] = result.family === "scale" ? result.attributes : [];
  const found = juicy ? scatterOf(juicy) : null;
  expect(found?.deviation).toBeCloseTo(7.83619547969291, 10);
  expect(found?.atMost).toBeCloseTo(9.0998837226602358, 10);
  // by hand: of nine steps, one is 12.5 points of 100
  const form = { kind: "steps" as const, labels: new Array<string>(9).fill(""), liking: false };
  expect(juicy && scatterOf({ ...juicy, form })?.deviation).toBeCloseTo(12.5 * 7.83619547969291, 9);
});
