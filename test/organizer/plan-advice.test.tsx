// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { emptyPlan } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { lockedFacts } from "../../src/organizer/locked-facts.ts";
import { PartMethod } from "../../src/organizer/part-method.tsx";
import { PartQuestion } from "../../src/organizer/part-question.tsx";
import { answered, takeAdvice, withLooks } from "../../src/organizer/plan-advice.ts";
import type { Draft } from "../../src/organizer/use-draft.ts";
import { adviceWords } from "../../src/words/en/organizer-advice.ts";
import { readyPlan } from "../design/scenario.ts";
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
function Part({ first, of: Fields }: { first: Plan; of: typeof PartMethod }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  const draft: Draft = { plan, edit: (change) => setPlan(change), flush: async () => {} };
  return <Fields draft={draft} />;
}
const show = (first: Plan, of: typeof PartMethod) => asLead(lead, <Part first={first} of={of} />);
const answer = (question: string, value: string): void => {
  const option = document.querySelector(`#asked-${question} input[value="${value}"]`);
  if (!option) throw new Error(`${question} is not asked`);
  fireEvent.click(option);
};
const fact = (plan: Plan, term: string): string[] => lockedFacts(plan).find((each) => each.term === term)?.lines ?? [];
const cells = (row: string): (string | undefined)[] =>
  [...document.querySelectorAll(".costs tbody tr")]
    .filter((each) => each.querySelector("th")?.textContent?.trim().startsWith(row))
    .flatMap((each) => [...each.querySelectorAll("td")].map((cell) => cell.lastChild?.textContent ?? undefined));

describe("answers to the planner's questions", () => {
  test("a new plan goes by the advice as it comes, question by question", () => {
    show(emptyPlan(), PartQuestion);
    expect(document.querySelector("#asked-property")).toBeNull();
    answer("want", "any-difference");
    answer("property", "yes");
    expect([now.method, now.sides]).toEqual(["paired-difference", "two"]);
    answer("expected", "yes");
    expect([now.method, now.sides]).toEqual(["paired-difference", "one"]);
    expect(screen.getByRole("status").textContent).toContain("Paired difference, one-sided. The plan goes by this.");
    answer("aim", "too-small");
    answer("food", "mild");
    expect([now.method, now.goal]).toEqual(["tetrad", "similarity"]);
  });
  test("a method that was chosen against the advice stays through further answers, and both stand on record", () => {
    const first = answered(answered(emptyPlan(), { want: "any-difference" }), { property: "no" });
    const chosen = answered({ ...first, method: "duo-trio" }, { food: "mild" });
    expect([chosen.method, chosen.advised?.method]).toEqual(["duo-trio", "tetrad"]);
    expect(fact(chosen, adviceWords.recordTerm)).toEqual(["The planner advised: Tetrad. The lead chose: Duo-trio."]);
    expect(fact(chosen, adviceWords.askedTerm)).toContain("How does the food sit in the mouth? Mild, soon gone.");
  });
  test("a plan that was there before the questions keeps its method until its lead takes the advice", () => {
    const plan = answered(readyPlan(), { want: "liking", products: "two" });
    expect([plan.method, plan.advised?.method]).toEqual(["triangle", "paired-preference"]);
    const taken = plan.advised && takeAdvice(plan, plan.advised);
    expect(taken?.method).toBe("paired-preference");
    expect(fact(readyPlan(), adviceWords.recordTerm)).toEqual([]);
  });
  test("an order of liking is one: who sits on the panel is then asked about", () => {
    const plan = answered(answered(emptyPlan(), { want: "liking" }), { products: "few" });
    expect([plan.method, plan.ranking.liking]).toEqual(["ranking", true]);
  });
  test("looks found later change the advice, not the plan", () => {
    const plan = answered(answered(emptyPlan(), { want: "any-difference" }), { property: "no" });
    const seen = withLooks(plan, "differ");
    expect([seen.method, seen.advised?.method]).toEqual(["triangle", "a-not-a"]);
  });
});

describe("the proposal beside the method", () => {
  const mild = answered(answered(answered(emptyPlan(), { want: "any-difference" }), { property: "no" }), {
    food: "mild",
  });

  test("any method can be taken against it, and it can be taken again", () => {
    show(mild, PartMethod);
    fireEvent.click(screen.getByRole("radio", { name: /^Triangle/ }));
    expect([now.method, now.advised?.method]).toEqual(["triangle", "tetrad"]);
    fireEvent.click(screen.getByRole("button", { name: adviceWords.take("tetrad") }));
    expect(now.method).toBe("tetrad");
    expect(screen.queryByRole("button", { name: adviceWords.take("tetrad") })).toBeNull();
  });
  test("people at d′ 1.5, 80 % power, alpha 0.05: 57, 65, 20, 13 (exact binomial, computed outside), with their cups", async () => {
    const plan = { ...mild, dPrimeSought: 1.5, people: 30, spares: 3 };
    const paired = answered({ ...plan, method: "triangle" }, { property: "no" });
    show(
      { ...paired, serving: { ...paired.serving, portionGrams: 12 }, pace: { ...paired.pace, seats: 10 } },
      PartMethod,
    );
    await waitFor(() => expect(cells("Triangle, with enough people")[0]).toBe("57"));
    await waitFor(() => expect(cells("Paired difference")[0]).not.toBe(adviceWords.cost.counting));
    // one spare to ten people: 57 and 6 trays of 3 cups of 12 g, ten seats
    expect(cells("Triangle, with enough people")).toEqual(["57", "63", "189", "2.3\u00a0kg", "3", "6"]);
    expect(cells("Tetrad").slice(0, 3)).toEqual(["20", "22", "88"]);
    expect(cells("Duo-trio").slice(0, 3)).toEqual(["65", "72", "216"]);
    expect(cells("Triangle, as planned").slice(0, 3)).toEqual(["30", "33", "99"]);
  });
});
