// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, expect, test } from "vitest";
import { emptyKitchen } from "../../src/design/begin.ts";
import { openParts } from "../../src/design/readiness.ts";
import { kitchenStream } from "../../src/model/event.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { lockedFacts } from "../../src/organizer/locked-facts.ts";
import { PartMethod } from "../../src/organizer/part-method.tsx";
import { PartPeople } from "../../src/organizer/part-people.tsx";
import { PartSamples } from "../../src/organizer/part-samples.tsx";
import { withMethod, withoutProduct, withProduct } from "../../src/organizer/plan-edit.ts";
import { fieldOf, keyOf, pagePartOf } from "../../src/organizer/plan-fields.ts";
import { summaryOf } from "../../src/organizer/plan-summary.ts";
import type { Draft } from "../../src/organizer/use-draft.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { juiciness, linePlan, rankingPlan, readyPlan } from "../design/scenario.ts";
import { asLead, now as at, device, newLead } from "./lead-page.tsx";

const parts = { method: PartMethod, people: PartPeople, samples: PartSamples };
const words = planWords.ranking;

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

let now: Plan;
function Part({ first, part }: { first: Plan; part: keyof typeof parts }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  const draft: Draft = { plan, edit: (change) => setPlan(change), flush: async () => {} };
  const Fields = parts[part];
  return <Fields draft={draft} />;
}
const show = (first: Plan, part: keyof typeof parts) => asLead(lead, <Part first={first} part={part} />);
const type = (id: string, value: string): void => {
  const field = document.getElementById(id);
  if (!field) throw new Error(`no field ${id}`);
  fireEvent.input(field, { target: { value } });
};
const plain = (text: string | null): string => (text ?? "").replaceAll("\u00a0", " ");
const names = ({ products, ranking }: Plan): (string | undefined)[] =>
  ranking.predicted.map((id) => products.find((product) => product.id === id)?.name);
const { products, ranking } = rankingPlan();
const ofPlan = (ids: string[]): Plan => rankingPlan({ ranking: { ...ranking, predicted: ids } });
const unpredicted = (): Plan => ofPlan([]);
const predicted = (): Plan => ofPlan(products.map(({ id }) => id));

test("a ranking of which nothing is said: every open part leads to a field on its part of the page", () => {
  const empty = { name: "", least: "", most: "", definition: "", liking: false };
  const [first = ""] = rankingPlan().products.map(({ id }) => id);
  const plan = rankingPlan({ ranking: { ...empty, predicted: [first] } });
  const same = rankingPlan({ ranking: { ...empty, least: "least juicy", most: "least juicy", predicted: [] } });
  for (const one of [plan, same]) {
    const open = openParts(one);
    expect(open.length).toBeGreaterThan(2);
    expect(new Set(open.map(keyOf)).size).toBe(open.length);
    for (const each of open) {
      const part = pagePartOf(each);
      if (part !== "method" && part !== "samples") throw new Error(`${each.what} in ${part}`);
      show(one, part);
      expect(document.getElementById(fieldOf(each)), keyOf(each)).not.toBeNull();
      cleanup();
    }
  }
});

test("what is typed is kept, and the question of the tablet is previewed once both ends are there", () => {
  show(withMethod(readyPlan(), "ranking"), "method");
  const preview = () => plain(document.querySelector(".preview")?.textContent ?? null);
  type("ranking-name", "Juiciness");
  type("ranking-least", "least juicy");
  expect(preview()).toBe("");
  type("ranking-most", "most juicy");
  type("ranking-definition", "Juice felt while chewing.");
  // the question of domain practice, no source
  expect(preview()).toContain("Put the samples in order from least juicy to most juicy. Use each place once.");
  expect(now.ranking).toMatchObject({ name: "Juiciness", definition: "Juice felt while chewing." });
  expect(document.getElementById("method-stopping")).toBeNull();
});

test("a predicted order is told by buttons alone: a product moves, the focus goes with it, and its place is said", async () => {
  show(unpredicted(), "samples");
  const say = (value: "yes" | "no") =>
    fireEvent.click(document.querySelector(`#ranking-predicted input[value=${value}]`) ?? document.body);
  say("yes");
  expect(names(now)).toEqual(["current", "new", "new, rested", "new, held"]);
  const press = (label: string, name: string) =>
    fireEvent.click(screen.getByRole("button", { name: new RegExp(`^${label} ?${words.moveOf(name)}$`) }));
  press(words.earlier, "new, held");
  await waitFor(() => expect(document.activeElement?.id).toBe("predicted-2-earlier"));
  press(words.earlier, "new, held");
  await waitFor(() => expect(document.activeElement?.id).toBe("predicted-1-earlier"));
  press(words.earlier, "new, held");
  expect(names(now)).toEqual(["new, held", "current", "new", "new, rested"]);
  // it is the first one now and has one way left to go
  await waitFor(() => expect(document.activeElement?.id).toBe("predicted-0-later"));
  screen.getByText(words.moved("new, held", 1, 4));
  expect(openParts(now)).toEqual([]);
  say("no");
  expect(now.ranking.predicted).toEqual([]);
});

test("a predicted order stays one of all products when one comes or goes", () => {
  const plan = predicted();
  const [, second = ""] = plan.ranking.predicted;
  expect(names(withoutProduct(plan, second))).toEqual(["current", "new, rested", "new, held"]);
  const added = withProduct(plan, "11111111-2222-4333-8444-555555555599");
  expect(added.ranking.predicted.at(-1)).toBe("11111111-2222-4333-8444-555555555599");
  expect(withProduct(unpredicted(), "11111111-2222-4333-8444-555555555599").ranking.predicted).toEqual([]);
});

test("a property of the kitchen’s list fills the fields, and is no longer offered then", async () => {
  const [attribute] = linePlan().scale.attributes;
  if (!attribute) throw new Error("the scenario judges juiciness");
  const { inFamily: _inFamily, ...known } = attribute;
  const kitchen = { ...emptyKitchen(), properties: [{ ...known, id: juiciness, starts: false }] };
  const body = { base: null, merged: [], kitchen };
  await lead.store.append(device, at, { stream: kitchenStream, kind: "kitchen-saved", body });
  show(withMethod(readyPlan(), "ranking"), "method");
  const picker = { name: new RegExp(`^${words.pick} ?${words.pickOf("Juiciness")}$`) };
  fireEvent.click(await screen.findByRole("button", picker));
  expect(now.ranking).toEqual({
    name: "Juiciness",
    least: "least juicy",
    most: "most juicy",
    definition: "Juice that is felt in the mouth while chewing.",
    predicted: [],
    liking: false,
  });
  expect(screen.queryByRole("button", picker)).toBeNull();
  await waitFor(() => expect(document.activeElement?.id).toBe("ranking-name"));
});

test("no figure stands where there is none: the people part says what is usual", () => {
  show(rankingPlan(), "people");
  const said = plain(document.body.textContent);
  expect(said).toContain("12 to 15");
  expect(said).not.toMatch(/95 % interval|of 100 such studies/);
  expect(document.getElementById("people-repeats")).toBeNull();
  expect(plain(summaryOf("people", rankingPlan()))).toBe("12 people and 1 spare tray.");
});

test("the page of the lock says what is put in order, and the order that was predicted", () => {
  const said = (plan: Plan) =>
    plain(
      lockedFacts(plan)
        .flatMap(({ term, lines }) => [term, ...lines])
        .join("\n"),
    );
  const with4 = said(predicted());
  expect(with4).toContain("Put the samples in order from least juicy to most juicy. Use each place once.");
  expect(with4).toContain("“current”, then “new”, then “new, rested”, then “new, held”");
  expect(said(unpredicted())).toContain("None was predicted.");
  expect(plain(summaryOf("method", predicted()))).toContain("Ranking by Juiciness, from “least juicy” to “most juicy”");
});

test("an order of liking is ticked in the plan, and people who stand for nobody but themselves are then flagged", () => {
  show(rankingPlan({ panelType: "colleagues" }), "method");
  fireEvent.click(screen.getByLabelText(words.liking));
  expect(now.ranking.liking).toBe(true);
  cleanup();
  const flag = planWords.method.panelFlag.colleagues;
  show(now, "people");
  expect(document.body.textContent).toContain(flag);
  cleanup();
  show(rankingPlan({ panelType: "colleagues" }), "people");
  expect(document.body.textContent).not.toContain(flag);
});
