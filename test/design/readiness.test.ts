import { describe, expect, test } from "vitest";
import { allergenUnion, blindPacketOf } from "../../src/design/packet.ts";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import type { OpenPart } from "../../src/model/open-part.ts";
import { type Plan, plan as planSchema } from "../../src/model/plan.ts";
import { isHolding } from "../../src/model/safety-limit.ts";
import { read } from "../../src/model/schema.ts";
import { linePlan, preferencePlan, readyPlan } from "./scenario.ts";

test("an empty plan is a plan, and every part of it is open but method and people", () => {
  expect(read(planSchema, emptyPlan())).toEqual(emptyPlan());
  const open = new Set(openParts(emptyPlan()).map(({ part }) => part));
  expect([...open].toSorted()).toEqual(["question", "safety", "samples", "serving"]);
});

test.each([
  ["triangle", readyPlan()],
  ["preference", preferencePlan()],
  ["line scale", linePlan()],
  ["triangle to show likeness", readyPlan({ goal: "similarity" })],
])("a plan with everything is ready: %s", (_method, plan) => {
  expect(openParts(plan)).toEqual([]);
});

/** A line scale with its one attribute changed, or with these attributes. */
const scaled = (change: object | object[]): Plan => {
  const plan = linePlan();
  const attributes = Array.isArray(change) ? change : plan.scale.attributes.map((each) => ({ ...each, ...change }));
  return { ...plan, scale: { ...plan.scale, attributes } };
};
const [juicy] = linePlan().scale.attributes;
const five = ["not juicy at all", "", "juicy", "", "very juicy"];
const ends = { lowAnchor: "", highAnchor: "" };
const stepped = (labels: string[]) => ({ ...ends, form: { kind: "steps", labels, liking: false } });
const justRight = { ...juicy, ...ends, id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf6", name: "Wetness" };
const wetness = { ...justRight, form: { kind: "just-right", labels: ["too dry", "just right", "too wet"] } };
const method = { part: "method", attribute: 0, name: "Juiciness" } as const;
const lines: [string, Plan, OpenPart[]][] = [
  ["five steps, with words at the ends and the middle", scaled(stepped(five)), []],
  ["a first step without words", scaled(stepped(["", ...five.slice(1)])), [{ ...method, what: "step-label", step: 0 }]],
  ["two steps that say the same", scaled(stepped(["Juicy", ...five.slice(1)])), [{ ...method, what: "same-labels" }]],
  [
    "liking of the sample as a whole, which needs no word and no definition",
    scaled({ ...ends, adjective: "", definition: "", form: { kind: "steps", labels: five, liking: true } }),
    [],
  ],
  [
    "steps of a property without a word",
    scaled({ ...stepped(five), adjective: "" }),
    [{ ...method, what: "attribute-field", field: "adjective" }],
  ],
  ["just right as a second property", scaled([juicy ?? {}, wetness]), []],
  [
    "just right as what the verdict is about",
    scaled([wetness, juicy ?? {}]),
    [{ ...method, what: "first-just-right", name: "Wetness" }],
  ],
  [
    "just right at two moments",
    scaled([
      juicy ?? {},
      { ...wetness, further: [{ id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf7", moment: { at: "first-bite" } }] },
    ]),
    [{ ...method, what: "just-right-moments", attribute: 1, name: "Wetness" }],
  ],
  [
    "just right with a step without words",
    scaled([juicy ?? {}, { ...wetness, form: { kind: "just-right", labels: ["too dry", "", "too wet"] } }]),
    [{ ...method, what: "step-label", attribute: 1, name: "Wetness", step: 1 }],
  ],
  ["nothing to judge", scaled([]), [{ part: "method", what: "attributes" }]],
  [
    "a property without a definition",
    scaled({ definition: " " }),
    [{ part: "method", what: "attribute-field", attribute: 0, name: "Juiciness", field: "definition" }],
  ],
  [
    "two ends alike",
    scaled({ highAnchor: "Not at all juicy" }),
    [{ part: "method", what: "same-anchors", attribute: 0, name: "Juiciness" }],
  ],
  [
    "one property asked twice",
    scaled([juicy ?? {}, juicy ?? {}]),
    [{ part: "method", what: "same-attribute", attribute: 1, name: "Juiciness" }],
  ],
  [
    "a property asked again at a moment it has",
    scaled({ further: [{ id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf1", moment: { at: "after", seconds: 10 } }] }),
    [{ part: "method", what: "same-attribute", attribute: 0, name: "Juiciness" }],
  ],
  [
    "the same property twice, at a moment that only one of them begins with",
    scaled([
      juicy ?? {},
      {
        ...juicy,
        moment: { at: "first-bite" },
        further: [{ id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf2", moment: juicy?.moment }],
      },
    ]),
    [{ part: "method", what: "same-attribute", attribute: 1, name: "Juiciness" }],
  ],
  [
    "seconds and chews in one study",
    scaled({ further: [{ id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf3", moment: { at: "chews", chews: 15 } }] }),
    [{ part: "method", what: "mixed-clocks", attribute: 0, name: "Juiciness" }],
  ],
  [
    "three moments over one chew",
    scaled({
      further: [
        { id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf4", moment: { at: "before-swallowing" } },
        { id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf5", moment: { at: "first-bite" } },
      ],
    }),
    [],
  ],
  ["the same property at another moment", scaled([juicy ?? {}, { ...juicy, moment: { at: "first-bite" } }]), []],
  [
    "seven products",
    { ...linePlan(), products: sevenProducts() },
    [{ part: "samples", what: "products", count: 7, least: 2, most: 6 }],
  ],
  ["a goal the method cannot have", linePlan({ goal: "similarity" }), [{ part: "method", what: "goal" }]],
];
function sevenProducts(): Plan["products"] {
  const [first] = linePlan().products;
  return first ? Array.from({ length: 7 }, (_, at) => ({ ...first, name: `product ${at + 1}` })) : [];
}
test("a packet names the length of a line only where a property has one", () => {
  const lengthOf = (plan: Plan) => blindPacketOf(plan, juicy?.id ?? "", [], "00".repeat(32)).line?.lengthMm;
  expect(lengthOf(scaled(stepped(five)))).toBeNull();
  expect(lengthOf(scaled([juicy ?? {}, wetness]))).toBe(120);
});

test.each(lines)("rating scale: %s", (_name, plan, open) => {
  expect(openParts(plan)).toEqual(open);
});

test("five people and a preference: too few; six at a risk of 0.02, whom not even six of one mind would reach", () => {
  const few = preferencePlan({
    alpha: 0.02,
    people: 6,
    waves: readyPlan().waves.map((wave) => ({ ...wave, people: 3 })),
  });
  // six of six, in either direction: 2 / 64
  expect(openParts(few)).toEqual([{ part: "people", what: "no-critical-number", people: 6, risk: 0.02 }]);
});

const changed = (change: (plan: Plan) => Partial<Plan>) => {
  const plan = readyPlan();
  return openParts({ ...plan, ...change(plan) });
};
const cases: [name: string, change: (plan: Plan) => Partial<Plan>, open: OpenPart[]][] = [
  ["no title", () => ({ title: "" }), [{ part: "question", what: "title" }]],
  ["a blank objective", () => ({ objective: "  " }), [{ part: "question", what: "objective" }]],
  ["nothing to do if yes", () => ({ ifYes: "" }), [{ part: "question", what: "if-yes" }]],
  ["nothing to do if no", () => ({ ifNo: "" }), [{ part: "question", what: "if-no" }]],
  ["an alpha of 0", () => ({ alpha: 0 }), [{ part: "method", what: "alpha" }]],
  ["a share of 0 sought", () => ({ discriminatorShareSought: 0 }), [{ part: "method", what: "share-sought" }]],
  [
    "nobody",
    (plan) => ({ people: 0, waves: plan.waves.map((wave) => ({ ...wave, people: 0 })) }),
    [{ part: "people", what: "people" }],
  ],
  [
    "five people, of whom no count gives a verdict",
    (plan) => ({ people: 5, waves: plan.waves.map((wave, at) => ({ ...wave, people: 3 - at })) }),
    [{ part: "people", what: "too-few-people", people: 5, least: 6 }],
  ],
  [
    // six right by guessing: 1 in 3^6 = 729, which is more than 1 in 1,000
    "six people at a risk of 0.001, who could not reach it",
    (plan) => ({ alpha: 0.001, people: 6, waves: plan.waves.map((wave) => ({ ...wave, people: 3 })) }),
    [{ part: "people", what: "no-critical-number", people: 6, risk: 0.001 }],
  ],
  ["who carries not answered", () => ({ serverKnowsKey: null }), [{ part: "serving", what: "server" }]],
  ["looks not answered", () => ({ looks: null }), [{ part: "samples", what: "looks" }]],
  ["looks masked, not said how", () => ({ looks: "masked" }), [{ part: "samples", what: "masking" }]],
  [
    "a product without a preparation",
    (plan) => ({
      products: plan.products.map((product, at) => (at === 1 ? { ...product, preparation: "" } : product)),
    }),
    [{ part: "samples", what: "product-preparation", product: 1, name: "new" }],
  ],
  [
    "two products of one name",
    (plan) => ({ products: plan.products.map((product) => ({ ...product, name: "New " })) }),
    [{ part: "samples", what: "same-name", product: 1, name: "New" }],
  ],
  [
    "25 people in waves of 24",
    () => ({ people: 25 }),
    [{ part: "serving", what: "people-in-waves", planned: 25, inWaves: 24 }],
  ],
  ["no waves", () => ({ waves: [] }), [{ part: "serving", what: "waves" }]],
  [
    "a batch without a name",
    (plan) => ({
      waves: plan.waves.map((wave, at) =>
        at === 0 ? wave : { ...wave, batches: { ...wave.batches, [plan.products[0]?.id ?? ""]: [" "] } },
      ),
    }),
    [{ part: "serving", what: "batch", wave: 1, product: 0, name: "current" }],
  ],
  [
    "a warm-up that is not named",
    (plan) => ({ serving: { ...plan.serving, warmUpWhat: "" } }),
    [{ part: "serving", what: "warm-up" }],
  ],
  [
    "no declaration for a product and the cleanser",
    (plan) => ({ declarations: plan.declarations.filter(({ of }) => of === "warm-up" || of === plan.products[0]?.id) }),
    [
      { part: "safety", what: "declaration", of: readyPlan().products[1]?.id ?? "", product: 1, name: "new" },
      { part: "safety", what: "declaration", of: "cleanser", product: null, name: "" },
    ],
  ],
  [
    "declarations not signed as complete",
    () => ({ declarationsComplete: false }),
    [{ part: "safety", what: "declarations-complete" }],
  ],
  [
    "a caution that applies and was not read",
    () => ({ cautionsApplying: ["alcohol"] }),
    [{ part: "safety", what: "caution", caution: "alcohol" }],
  ],
  [
    "hygiene not read, though the plan does not name it",
    () => ({ cautionsApplying: [], cautionsRead: ["choking"] }),
    [{ part: "safety", what: "caution", caution: "hygiene" }],
  ],
  ["no word on a carrier", () => ({ carrier: null }), [{ part: "safety", what: "carrier" }]],
  [
    "a carrier that is neither named nor declared",
    () => ({ carrier: true }),
    [
      { part: "safety", what: "carrier-what" },
      { part: "safety", what: "declaration", of: "carrier", product: null, name: "" },
    ],
  ],
  [
    "no limit of cooking",
    ({ limits }) => ({ limits: limits.filter(isHolding) }),
    [{ part: "safety", what: "cooking-limit" }],
  ],
  ["nothing of what is served", () => ({ served: " " }), [{ part: "safety", what: "served" }]],
  ["nobody to turn to", () => ({ contact: "" }), [{ part: "safety", what: "contact" }]],
  [
    "undercooked food for which nobody answers",
    ({ cautionsRead }) => ({ cautionsApplying: ["undercooked"], cautionsRead: [...cautionsRead, "undercooked"] }),
    [{ part: "safety", what: "responsible" }],
  ],
];
test.each(cases)("%s is the one thing missing", (_, change, open) => {
  expect(changed(change)).toEqual(open);
});

test("six people at a risk of 0.002 can reach it: 1 in 729 is less", () => {
  const open = changed((plan) => ({
    alpha: 0.002,
    people: 6,
    waves: plan.waves.map((wave) => ({ ...wave, people: 3 })),
  }));
  expect(open).toEqual([]);
});

test("an allergen list on which nobody has ticked anything is open, until somebody says that there is none", () => {
  const declared = (none: boolean) =>
    changed((plan) => ({
      declarations: plan.declarations.map((each) =>
        each.of === "cleanser" ? { ...each, contains: [], mayContain: [], other: " ", none } : each,
      ),
    }));
  expect(declared(false)).toMatchObject([{ part: "safety", what: "declaration", of: "cleanser" }]);
  expect(declared(true)).toEqual([]);
});

test("a wave without a beginning or without people is open", () => {
  const open = changed((plan) => ({
    waves: [
      ...plan.waves.map((wave, at) => (at === 0 ? { ...wave, starts: " " } : wave)),
      { ...(plan.waves[0] ?? plan.waves[1]), id: "11111111-2222-4333-8444-555555555509", starts: "13:00", people: 0 },
    ] as Plan["waves"],
  }));
  expect(open).toEqual([
    { part: "serving", what: "wave-start", wave: 0 },
    { part: "serving", what: "wave-people", wave: 2 },
  ]);
});

test("no warm-up and no cleanser need no declaration", () => {
  const open = changed((plan) => ({
    serving: { ...plan.serving, warmUp: false, cleanser: "" },
    declarations: plan.declarations.slice(0, 2),
  }));
  expect(open).toEqual([]);
});

describe("the allergens a panelist sees", () => {
  test("are one list over everything served; what is contained is not also listed as may", () => {
    const plan = readyPlan();
    const [first] = plan.declarations;
    if (!first) throw new Error("the plan declares something");
    const declarations = [
      ...plan.declarations.slice(1),
      { ...first, contains: [], mayContain: ["egg"] as const, other: " quince " },
    ];
    expect(
      allergenUnion({ ...plan, declarations: declarations.map((d) => ({ ...d, mayContain: [...d.mayContain] })) }),
    ).toEqual({
      contains: ["gluten-cereals", "egg", "milk"],
      mayContain: ["mustard"],
      other: ["quince"],
    });
  });
  test("leave out a product that was taken from the plan and a warm-up that is not served", () => {
    const plan = readyPlan();
    const rest = { mayContain: [], other: "", none: false };
    const gone = { of: "99999999-9999-4999-8999-999999999999", contains: ["fish" as const], ...rest };
    const warmUp = { of: "warm-up", contains: ["lupin" as const], mayContain: [], other: "", none: false };
    const declarations = [...plan.declarations.filter(({ of }) => of !== "warm-up"), gone, warmUp];
    const union = allergenUnion({ ...plan, declarations, serving: { ...plan.serving, warmUp: false } });
    expect(union.contains).toEqual(["gluten-cereals", "egg", "milk"]);
  });
  test("leave out a carrier that there is not", () => {
    const declared = { of: "carrier", contains: ["soy" as const], mayContain: [], other: "", none: false };
    const plan = readyPlan({ declarations: [...readyPlan().declarations, declared] });
    expect(allergenUnion(plan).contains).not.toContain("soy");
    expect(allergenUnion({ ...plan, carrier: true }).contains).toContain("soy");
  });
  test("get another version when an ingredient changes, and the packet carries the cautions", () => {
    const plan = readyPlan({ cautionsApplying: ["undercooked"], carrier: true });
    const packet = blindPacketOf(plan, plan.products[0]?.id ?? "", [], "0".repeat(64));
    const carrier = { of: "carrier", contains: ["soy" as const], mayContain: [], other: "", none: false };
    const changedPacket = blindPacketOf(
      { ...plan, declarations: [...plan.declarations, carrier] },
      packet.study,
      [],
      packet.commitment,
    );
    expect(changedPacket.allergens.version).not.toBe(packet.allergens.version);
    expect(packet.cautions).toEqual(["hygiene", "choking", "undercooked"]);
  });
});
