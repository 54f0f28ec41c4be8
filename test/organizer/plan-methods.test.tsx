// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { lockedFacts } from "../../src/organizer/locked-facts.ts";
import { PartMethod } from "../../src/organizer/part-method.tsx";
import { PartPeople, sizeSentences } from "../../src/organizer/part-people.tsx";
import { PartQuestion } from "../../src/organizer/part-question.tsx";
import { PartSafety } from "../../src/organizer/part-safety.tsx";
import { PartSamples } from "../../src/organizer/part-samples.tsx";
import { PartServing } from "../../src/organizer/part-serving.tsx";
import { fieldOf, keyOf, pagePartOf } from "../../src/organizer/plan-fields.ts";
import { summaryOf } from "../../src/organizer/plan-summary.ts";
import type { Draft } from "../../src/organizer/use-draft.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { linePlan, preferencePlan, rankingPlan, readyPlan } from "../design/scenario.ts";
import { asLead, newLead } from "./lead-page.tsx";

const fieldsOf = {
  question: PartQuestion,
  method: PartMethod,
  people: PartPeople,
  samples: PartSamples,
  serving: PartServing,
  safety: PartSafety,
};
type PartName = keyof typeof fieldsOf;

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

/** A part of the page with a plan behind it that changes as it is edited; `now` is that plan. */
let now: Plan;
function Part({ first, part }: { first: Plan; part: PartName }) {
  const [plan, setPlan] = useState(first);
  now = plan;
  const draft: Draft = { plan, edit: (change) => setPlan(change), flush: async () => {} };
  const Fields = fieldsOf[part];
  return <Fields draft={draft} />;
}
const show = (first: Plan, part: PartName) => asLead(lead, <Part first={first} part={part} />);
const type = (id: string, value: string): void => {
  const field = document.getElementById(id);
  if (!field) throw new Error(`no field ${id}`);
  fireEvent.input(field, { target: { value } });
};
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

const [juicy] = linePlan().scale.attributes;
if (!juicy) throw new Error("the scenario judges juiciness");
const bare = { ...juicy, name: "", adjective: "", definition: "", lowAnchor: "", highAnchor: "" };
const scaled = (attributes: Plan["scale"]["attributes"]): Plan => linePlan({ scale: { lengthMm: 120, attributes } });
const three = linePlan().products;

const [one, two] = readyPlan().products;
const asked = (at: number) => ({
  ...{ id: `11111111-2222-4333-8444-55555555556${at}`, name: "", comparative: "", definition: "" },
  ...{ expected: null, inFamily: true },
});

describe("every open part leads to a field that is on the page, and has a name of its own", () => {
  test.each<[string, Plan]>([
    ["a plan of which nothing is decided", emptyPlan()],
    ["a line scale with nothing to judge", scaled([])],
    ["properties without a word", scaled([bare, { ...bare, id: "11111111-2222-4333-8444-555555555511" }])],
    ["one property twice, its ends alike", scaled([{ ...juicy, highAnchor: juicy.lowAnchor }, juicy])],
    ["three products for a triangle", readyPlan({ products: three })],
    ["three products of one name", linePlan({ products: three.map((each) => ({ ...each, name: "new" })) })],
    ["a preference that cannot count", preferencePlan({ people: 6, alpha: 0.01 })],
    [
      "a likeness that cannot be shown",
      readyPlan({ goal: "similarity", similarity: { limit: 0.01, dPrime: null, beta: 0.01 }, people: 6 }),
    ],
    ["a goal that the method cannot have", linePlan({ goal: "similarity" })],
    ["a paired difference that asks for nothing", readyPlan({ method: "paired-difference" })],
    [
      "properties without a word or a product",
      readyPlan({ method: "three-alternative", properties: [asked(1), asked(2)] }),
    ],
    [
      "properties of which one needs the other product",
      readyPlan({
        method: "three-alternative",
        properties: [
          { ...asked(1), name: "Juiciness", comparative: "juicier", definition: "Juice.", expected: one?.id ?? null },
          { ...asked(2), name: "Softness", comparative: "softer", definition: "Give.", expected: two?.id ?? null },
        ],
      }),
    ],
    [
      "a constant reference that is not named",
      readyPlan({ method: "duo-trio", reference: { kind: "constant", product: null } }),
    ],
    ["a product A that is not named, a distance not said", readyPlan({ method: "a-not-a" })],
    ["a look after everybody", readyPlan({ stopping: { rule: "looks", at: [24] } })],
    [
      "a rule of stopping that likeness cannot have",
      readyPlan({ goal: "similarity", stopping: { rule: "looks", at: [12] } }),
    ],
    ["sessions that are not named", readyPlan({ repeats: 2, repeatsIn: "sessions" })],
    [
      "sessions that seat half of the people",
      readyPlan({
        ...{ repeats: 2, repeatsIn: "sessions" },
        waves: readyPlan().waves.map((wave, at) => ({ ...wave, session: `day ${at + 1}` })),
      }),
    ],
    ["several trays a person on the line, in incomplete blocks", linePlan({ repeats: 2, perTray: 2 })],
    ["several trays a person of a ranking", rankingPlan({ repeats: 2 })],
  ])("%s", (_, plan) => {
    const open = openParts(plan);
    expect(open.length).toBeGreaterThan(0);
    expect(new Set(open.map(keyOf)).size).toBe(open.length);
    for (const part of new Set(open.map(pagePartOf))) {
      show(plan, part);
      for (const each of open.filter((one) => pagePartOf(one) === part)) {
        expect(document.getElementById(fieldOf(each)), keyOf(each)).not.toBeNull();
      }
      cleanup();
    }
  });
});

describe("the method", () => {
  test("changing it and back keeps everything that was typed", () => {
    const before = linePlan({ noPreference: "split" });
    show(before, "method");
    for (const name of ["Paired preference", "Triangle", "Rating scale"]) {
      fireEvent.click(screen.getByRole("radio", { name: new RegExp(`^${name}`) }));
    }
    expect(now).toEqual(before);
  });

  test("likeness is a goal of the triangle alone, so another method never keeps it", () => {
    show(readyPlan({ goal: "similarity" }), "method");
    type("method-limit", "20");
    fireEvent.click(screen.getByRole("radio", { name: /^Rating scale/ }));
    expect([now.goal, now.similarity.limit]).toEqual(["difference", 0.2]);
    expect(openParts({ ...now, scale: linePlan().scale })).toEqual([]);
  });

  test("a preference is previewed with its third answer only where it is offered", () => {
    show(preferencePlan({ noPreference: "not-offered" }), "method");
    const preview = () => document.querySelector(".preview")?.textContent ?? "";
    expect(preview()).toContain("Which sample do you prefer?");
    expect(preview()).not.toContain("No preference");
    fireEvent.click(screen.getByRole("radio", { name: /third share/ }));
    expect(preview()).toContain("No preference");
  });
});

describe("what a directional choice asks", () => {
  test("typed words are kept, the tablet’s question is previewed, a product is named where the products are", () => {
    show(readyPlan({ method: "paired-difference", properties: [asked(1)] }), "method");
    type("property-0-name", "Juiciness");
    type("property-0-comparative", "juicier");
    type("property-0-definition", "Juice felt while chewing.");
    expect(document.querySelector(".preview")?.textContent).toContain("Which sample is juicier?");
    expect(now.properties[0]).toMatchObject({ name: "Juiciness", comparative: "juicier" });
    const typed = now;
    cleanup();
    show(typed, "samples");
    const field = document.getElementById("samples-expected-0");
    fireEvent.click(field?.querySelectorAll("input")[1] ?? document.body);
    expect(now.properties[0]?.expected).toBe(two?.id);
    expect(openParts(now)).toEqual([]);
  });

  test("either product may have more: nothing is expected, and likeness is no goal any more", () => {
    show(readyPlan({ method: "paired-difference", goal: "similarity", properties: [asked(1)] }), "method");
    fireEvent.click(screen.getByRole("radio", { name: /^More in either product/ }));
    expect([now.sides, now.goal]).toEqual(["two", "difference"]);
  });

  test("six properties at most; one that is removed takes its words along", async () => {
    show(readyPlan({ method: "paired-difference", properties: [1, 2, 3, 4, 5].map(asked) }), "method");
    fireEvent.click(document.getElementById("property-add") ?? document.body);
    await waitFor(() => expect(document.activeElement?.id).toBe("property-5-name"));
    expect([now.properties.length, document.getElementById("property-add")]).toEqual([6, null]);
    fireEvent.click(screen.getAllByRole("button", { name: "Remove this property" })[0] ?? document.body);
    expect(now.properties.map(({ id }) => id.slice(-1))).toEqual(["2", "3", "4", "5", expect.any(String)]);
  });
});

describe("stopping", () => {
  test("one look at 17 of 30: 11 and 15 right, fooled 4.6 in 100", () => {
    // sums in fractions over all counts, Python 3.11: 0.0457
    show(readyPlan({ people: 30, stopping: { rule: "looks", at: [17] } }), "method");
    const said = () => plain(document.querySelector("details .note")?.textContent ?? "");
    expect(said()).toContain("After 17 answers: yes from 11 right on.");
    expect(said()).toContain("After 30 answers: yes from 15 right on.");
    expect(said()).toContain("all looks together: 4.6 in 100");
    type("method-looks", "12, 20");
    expect(now.stopping).toEqual({ rule: "looks", at: [12, 20] });
    type("method-looks", "40");
    expect(said()).not.toContain("After");
  });
});

describe("properties of a line scale", () => {
  test("end words follow the word of the question until somebody types others", () => {
    show(scaled([bare]), "method");
    type("attribute-0-adjective", "juicy");
    expect(now.scale.attributes[0]).toMatchObject({ lowAnchor: "not at all juicy", highAnchor: "extremely juicy" });
    type("attribute-0-high-anchor", "as juicy as can be");
    type("attribute-0-adjective", "chewy");
    expect(now.scale.attributes[0]).toMatchObject({ lowAnchor: "not at all chewy", highAnchor: "as juicy as can be" });
  });

  test("the preview asks the question of the tablet, at its moment", () => {
    show(scaled([{ ...juicy, moment: { at: "first-bite" } }]), "method");
    const preview = () => document.querySelector(".preview")?.textContent ?? "";
    expect(preview()).toContain("How juicy is sample 482, at the first bite?");
    fireEvent.click(screen.getByRole("radio", { name: /^Some seconds later/ }));
    type("attribute-0-moment-seconds", "12");
    expect(preview()).toContain("How juicy is sample 482 after 12 seconds of chewing?");
  });

  test("a property is asked again at other moments of the same bite: offered in turn, changed, taken away", async () => {
    show(scaled([{ ...juicy, moment: { at: "first-bite" } }]), "method");
    const { add, remove } = planWords.scale.further;
    const preview = () => [...document.querySelectorAll(".preview blockquote > p")].map((line) => line.textContent);
    const moments = () => now.scale.attributes[0]?.further.map(({ moment }) => moment);
    for (let times = 0; times < 2; times += 1) fireEvent.click(screen.getByRole("button", { name: add }));
    await waitFor(() => expect(document.activeElement?.id).toBe("attribute-0-moment-2"));
    expect(moments()).toEqual([{ at: "after", seconds: 10 }, { at: "before-swallowing" }]);
    type("attribute-0-moment-1-seconds", "15");
    expect(preview().slice(0, 3)).toEqual([
      "How juicy is sample 482, at the first bite?",
      "How juicy is sample 482 after 15 seconds of chewing?",
      expect.stringMatching(/^How juicy is sample 482, just before you/),
    ]);
    fireEvent.click(screen.getByRole("button", { name: remove(0) }));
    expect(moments()).toEqual([{ at: "before-swallowing" }]);
    await waitFor(() => expect(document.activeElement?.id).toBe("attribute-0-moment-add"));
  });

  test("they are added, moved and removed, and the focus goes along", async () => {
    const second = { ...juicy, id: "11111111-2222-4333-8444-555555555511", name: "Chewiness" };
    show(scaled([juicy, second]), "method");
    const names = () => now.scale.attributes.map(({ name }) => name);
    fireEvent.click(screen.getByRole("button", { name: planWords.scale.up("Chewiness") }));
    expect(names()).toEqual(["Chewiness", "Juiciness"]);
    await waitFor(() => expect(document.activeElement?.id).toBe("attribute-0-name"));
    fireEvent.click(screen.getByRole("button", { name: planWords.scale.remove("Chewiness") }));
    expect(names()).toEqual(["Juiciness"]);
    fireEvent.click(screen.getByRole("button", { name: planWords.scale.add }));
    expect(names()).toEqual(["Juiciness", ""]);
    await waitFor(() => expect(document.activeElement?.id).toBe("attribute-1-name"));
  });

  test("a line under 100 mm is refused with the bounds, and the plan keeps the length it had", () => {
    show(linePlan(), "method");
    fireEvent.click(screen.getByRole("radio", { name: "Another length" }));
    type("scale-length-mm", "90");
    expect(screen.getByRole("alert").textContent).toContain("between 100 and 200");
    expect(now.scale.lengthMm).toBe(120);
    type("scale-length-mm", "140");
    expect(now.scale.lengthMm).toBe(140);
  });
});

describe("panel size in words", () => {
  test("a triangle at 30 %: from 42 people on, by exact tails; 24 find a distance of 2.0", () => {
    // exact tails in fractions and the triangle's published integral by steps of 0.0004, Python 3.11: 42; 1.998
    const said = sizeSentences(readyPlan()).map(plain).join(" ");
    expect(said).toContain("from 42 on every number does");
    expect(said).toMatch(/24 people find in 80 of 100 studies: .*d′ (1\.9[5-9]|2(\.0[0-4]?)?), /);
  });

  // exact binomial tails, R 4.2.2: see test/design/size-test.test.ts
  test("a preference: a lead is said as a split", () => {
    expect(sizeSentences(preferencePlan({ people: 60 })).map(plain)[0]).toBe(
      "With 60 people who choose, this plan finds a split of 65 to 35 in 56 of 100 such studies.",
    );
    show(preferencePlan(), "people");
    type("people-share", "70");
    expect(now.discriminatorShareSought).toBeCloseTo(0.4, 12);
  });

  test("likeness: 60 people show that fewer than 30 % can tell in 93 of 100 studies where nobody can", () => {
    expect(sizeSentences(readyPlan({ goal: "similarity", people: 60 })).map(plain)[0]).toBe(
      "If nobody can tell, 60 people show that fewer than 30 % can in 93 of 100 such studies.",
    );
    expect(summaryOf("people", readyPlan({ goal: "similarity", people: 60 }))).toContain("at most 25 may be right");
  });

  // qt(0.975, 22) * 10 * sqrt(2 / 12) = 8.4666, R 4.2.2
  test("the line scale: how wide an interval would be", () => {
    show(linePlan(), "people");
    expect(plain(document.body.textContent ?? "")).toContain("known to within 8.5 points either way");
  });

  test("a panel of liking that stands for nobody but itself is flagged, another one is not", () => {
    show(preferencePlan({ panelType: "trained" }), "people");
    expect(screen.getByRole("status").textContent).toContain("this panel");
    fireEvent.click(screen.getByRole("radio", { name: /^Recruited consumers/ }));
    expect(screen.queryByRole("status")).toBeNull();
  });
});

test("the page of the lock says what is asked, and by which rules", () => {
  const said = (plan: Plan) =>
    plain(
      lockedFacts(plan)
        .flatMap(({ term, lines }) => [term, ...lines])
        .join("\n"),
    );
  const line = said(linePlan());
  for (const part of [
    "120 mm",
    "How juicy is sample 482 after 10 seconds of chewing?",
    "not at all juicy",
    "Juice that is felt",
  ])
    expect(line).toContain(part);
  const [asked] = linePlan().scale.attributes;
  if (!asked) throw new Error("the scenario judges juiciness");
  const more = said(
    scaled([{ ...asked, further: [{ id: asked.id.replace(/.$/, "f"), moment: { at: "chews", chews: 20 } }] }]),
  );
  expect(more).toContain("How juicy is sample 482 after 20 chews?");
  for (const { name, preparation } of three) expect(line).toContain(`${name}. ${preparation}`);
  expect(said(preferencePlan({ noPreference: "split" }))).toContain("Half of them count for each side");
  expect(said(readyPlan({ goal: "similarity" }))).toContain("fewer than 30 % can tell");
});
