// @vitest-environment happy-dom
import { cleanup, fireEvent, render } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, describe, expect, test } from "vitest";
import type { Attribute } from "../../src/model/attribute.ts";
import type { Plan } from "../../src/model/plan.ts";
import { FormFields } from "../../src/organizer/form-fields.tsx";
import { lockedFacts } from "../../src/organizer/locked-facts.ts";
import { changeAttribute } from "../../src/organizer/plan-scale.ts";
import { likingFlag, summaryOf } from "../../src/organizer/plan-summary.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { scaleSize } from "../../src/words/en/organizer-scale-size.ts";
import { linePlan, rankingPlan } from "../design/scenario.ts";

// A property that is judged one way and then another: nothing typed is lost, and nothing of the other way stays behind.
afterEach(cleanup);

const [juicy] = linePlan().scale.attributes;
if (!juicy) throw new Error("the scenario judges juiciness");
const liking: Attribute["form"] = { kind: "steps", labels: ["dislike", "like"], liking: true };
const withProperties = (attributes: Attribute[]): Plan => linePlan({ scale: { lengthMm: 120, attributes } });
const withForm = (form: Attribute["form"]): Plan => withProperties([{ ...juicy, form }]);

/** Ids are made for one test each: what was left is kept by them for as long as the page is open. */
let made = 0;
const property = (change: Partial<Attribute> = {}): Attribute => {
  made += 1;
  return { ...juicy, id: `99999999-2222-4333-8444-5555555555${String(made).padStart(2, "0")}`, ...change };
};

let now: Plan;
function Fields({ first, id }: { first: Plan; id: string }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  const judged = plan.scale.attributes.find((one) => one.id === id);
  if (!judged) throw new Error("no such property");
  return <FormFields id="a" judged={judged} onChange={(change) => setPlan((p) => changeAttribute(p, id, change))} />;
}
const opened = (plan: Plan, id: string): void => {
  cleanup();
  render(<Fields first={plan} id={id} />);
};
const choose = (kind: string): void => {
  const radio = document.querySelector(`#a-form input[value="${kind}"]`);
  if (!radio) throw new Error(`no ${kind}`);
  fireEvent.click(radio);
};
const judgedAs = (id: string): Attribute | undefined => now.scale.attributes.find((one) => one.id === id);

describe("from one form to another and back", () => {
  test("word, labels, ends and what it counts for are there again, also after the part was closed", () => {
    const one = property({ inFamily: true, lowAnchor: "dry as dust" });
    opened(withProperties([property(), one]), one.id);
    for (const kind of ["steps", "liking", "just-right"]) choose(kind);
    expect(judgedAs(one.id)).toMatchObject({ inFamily: false, form: { kind: "just-right" } });
    opened(now, one.id);
    choose("line");
    expect(judgedAs(one.id)).toEqual(one);
  });
  test("an end that nobody typed goes with its word, and comes with the next", () => {
    const one = property();
    opened(withProperties([one]), one.id);
    choose("liking");
    expect(judgedAs(one.id)).toMatchObject({ adjective: "", lowAnchor: "", highAnchor: "" });
    const typed = changeAttribute(now, one.id, { adjective: "tender", form: { kind: "line" } });
    expect(typed.scale.attributes[0]).toMatchObject({ lowAnchor: "not at all tender", highAnchor: "extremely tender" });
  });
  test("just right asks with the noun that the property is called by, wherever it comes from", () => {
    for (const before of ["line", "liking"]) {
      const one = property();
      opened(withProperties([property(), one]), one.id);
      choose(before);
      choose("just-right");
      expect(judgedAs(one.id)?.adjective).toBe("juiciness");
    }
  });
});

describe("what is said of a plan follows its form", () => {
  test("liking of people who stand for nobody else is flagged, at the people and before the lock", () => {
    const { panelFlag } = planWords.method;
    for (const panelType of ["colleagues", "trained"] as const) {
      const plan = { ...withForm(liking), panelType };
      expect(likingFlag(plan)).toBe(panelFlag[panelType]);
      const said = lockedFacts(plan).find(({ term }) => term === lockWords.lock.panel);
      expect(said?.lines.at(-1)).toBe(panelFlag[panelType]);
      expect(likingFlag({ ...rankingPlan(), ranking: { ...rankingPlan().ranking, liking: true }, panelType })).toBe(
        panelFlag[panelType],
      );
    }
    expect(likingFlag({ ...withForm(liking), panelType: "consumers" })).toBe("");
    expect(likingFlag({ ...linePlan(), panelType: "trained" })).toBe("");
  });
  test("how many points a step is, where there are steps", () => {
    expect(scaleSize.hint(null, 8, 12)).not.toContain("steps");
    // nine steps from 0 to 100 have eight gaps
    expect(scaleSize.hint(9, 8, 12)).toContain("Of your 9 steps one is 12.5");
  });
  test("a place that ends with a full stop ends with one", () => {
    expect(summaryOf("serving", linePlan({ place: "Tasting room." }))).not.toContain("..");
  });
});
