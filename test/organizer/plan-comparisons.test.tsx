// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, expect, test } from "vitest";
import type { Plan } from "../../src/model/plan.ts";
import { lockedFacts } from "../../src/organizer/locked-facts.ts";
import { ComparisonFields } from "../../src/organizer/part-comparisons.tsx";
import { withoutProduct } from "../../src/organizer/plan-edit.ts";
import type { Draft } from "../../src/organizer/use-draft.ts";
import { comparisonWords as words } from "../../src/words/en/organizer-comparisons.ts";
import { linePlan } from "../design/scenario.ts";

afterEach(cleanup);

let now: Plan;
function Fields({ first }: { first: Plan }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  const draft: Draft = { plan, edit: (change) => setPlan(change), flush: async () => {} };
  return <ComparisonFields draft={draft} />;
}
const choose = (label: string) => fireEvent.click(screen.getByRole("radio", { name: new RegExp(`^${label}`) }));
const locked = () => lockedFacts(now).find(({ term }) => term === words.locked.term)?.lines[0];

test("each against one of them: the product is chosen, stands in what is locked, and goes with its product", () => {
  render(<Fields first={linePlan()} />);
  choose(words.kinds.reference.label);
  expect(now.comparisons).toEqual({ kind: "reference", product: null });
  choose("current");
  expect(locked()).toBe(words.locked.reference("current"));
  const [gone] = now.products;
  expect(withoutProduct(now, gone?.id ?? "").comparisons).toEqual({ kind: "reference", product: null });
});

test("only some pairs: named by two selects, added and removed", () => {
  render(<Fields first={linePlan()} />);
  choose(words.kinds.planned.label);
  const [current, steamed] = now.products;
  const pick = (label: string, value = "") => fireEvent.change(screen.getByLabelText(label), { target: { value } });
  pick(words.pairFirst(0), steamed?.id);
  pick(words.pairSecond(0), current?.id);
  expect(locked()).toContain(words.locked.less("new", "current"));
  fireEvent.click(screen.getByRole("button", { name: words.add }));
  expect(now.comparisons).toMatchObject({ pairs: [{}, { first: null, second: null }] });
  fireEvent.click(screen.getByRole("button", { name: words.remove(1) }));
  expect(now.comparisons).toMatchObject({ pairs: [{ first: steamed?.id, second: current?.id }] });
});

test("two factors: the levels are named, and each product is given one of each", () => {
  render(<Fields first={linePlan()} />);
  choose(words.kinds["two-factors"].label);
  const type = (label: string, value: string, at = 0) => {
    const field = screen.getAllByLabelText(label)[at];
    if (!field) throw new Error(`no field ${label}`);
    fireEvent.input(field, { target: { value } });
  };
  type(words.factorField(0), "process");
  type(words.level("process", 0), "dry oven");
  type(words.level("process", 1), "steam first");
  type(words.factorField(1), "looks");
  fireEvent.click(screen.getAllByRole("radio", { name: "steam first" })[0] ?? document.body);
  expect(now.comparisons).toMatchObject({
    factors: [{ name: "process", levels: ["dry oven", "steam first"] }, { name: "looks" }],
  });
  const [first] = now.products;
  const cells = now.comparisons.kind === "two-factors" ? now.comparisons.cells : [];
  expect(cells.find(({ product }) => product === first?.id)?.first).toBe("two");
  expect(locked()).toBe(words.locked.factors("process", "looks"));
});
