import { emptyPlan } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import { isHolding, usualLimits } from "../../src/model/safety-limit.ts";

/** A plan with nothing missing, from the invented Quillmere Kitchen. Made anew for each test that asks. */
export function readyPlan(changes: Partial<Plan> = {}): Plan {
  const current = "6f1d1a52-3c0e-4e6f-9a41-5f0d5f8f1b01";
  const steamed = "0b7c2d64-91aa-4f7b-8d1e-2a9b6c3e4f02";
  const empty = emptyPlan();
  const declaration = { contains: ["egg", "milk"] as const, mayContain: ["mustard"] as const, other: "" };
  const declared = (of: string) => ({
    of,
    contains: [...declaration.contains],
    mayContain: [...declaration.mayContain],
    other: declaration.other,
    none: false,
  });
  return {
    ...empty,
    title: "Steam first?",
    objective: "Can the staff panel tell the steamed process from the current one?",
    ifYes: "Taste for juiciness next.",
    ifNo: "Ask about cost only.",
    people: 24,
    spares: 3,
    products: [
      { id: current, name: "current", preparation: "Dry oven, 200 °C, 14 min." },
      { id: steamed, name: "new", preparation: "Steam, 95 °C, 9 min, then hot air, 230 °C, 3 min." },
    ],
    looks: "alike",
    waves: [
      {
        id: "11111111-2222-4333-8444-555555555501",
        starts: "11:15",
        people: 12,
        session: "",
        batches: { [current]: ["C1", "C2"], [steamed]: ["N1", "N2"] },
      },
      {
        id: "11111111-2222-4333-8444-555555555502",
        starts: "12:00",
        people: 12,
        session: "",
        batches: { [current]: ["C3"], [steamed]: ["N3"] },
      },
    ],
    serving: { ...empty.serving, cleanser: "Water and plain crackers", warmUp: true, warmUpWhat: "Current process" },
    serverKnowsKey: false,
    declarations: [
      declared(current),
      declared(steamed),
      declared("warm-up"),
      { of: "cleanser", contains: ["gluten-cereals"], mayContain: [], other: "", none: false },
    ],
    declarationsComplete: true,
    cautionsRead: ["hygiene", "choking"],
    carrier: false,
    limits: usualLimits().filter((limit) => isHolding(limit) || limit.food.startsWith("Poultry")),
    served: "meatballs",
    contact: "Odalys Brandt, kitchen office",
    ...changes,
  };
}

/** A plan that began with the planner's questions and went its own way, with what is known of the time on the day. */
export const askedPlan = (changes: Partial<Plan> = {}): Plan =>
  readyPlan({
    asked: {
      ...{ want: "any-difference", products: "two", aim: "difference", property: "no" },
      ...{ expected: null, food: "mild", knows: "neither" },
    },
    advised: { method: "tetrad", goal: "difference", sides: "one" },
    pace: { tasteSeconds: 40, serveSeconds: 15, windowFrom: 4, windowTo: 15, seats: 6, mostSamples: 4 },
    ...changes,
  });

/** Which of the two processes the diners prefer; "no preference" may be said. */
export const preferencePlan = (changes: Partial<Plan> = {}): Plan =>
  readyPlan({
    title: "Steam first: preferred?",
    objective: "Which of the two do the diners prefer?",
    method: "paired-preference",
    noPreference: "dropped",
    standsFor: "diners of the four canteens",
    panelType: "consumers",
    ...changes,
  });

export const rested = "3c9d4e75-a2bb-4a8c-9e2f-3b0c7d4f5a03";
export const juiciness = "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b04";

/** How juicy the two processes are, and the new one with a covered rest, after ten seconds of chewing. */
export function linePlan(changes: Partial<Plan> = {}): Plan {
  const plan = readyPlan();
  const third = { id: rested, name: "new, rested", preparation: "As new, then 8 min of covered rest." };
  const [declared] = plan.declarations;
  return {
    ...plan,
    title: "Steam first: juicier?",
    objective: "How juicy are the two processes, and does a covered rest add to it?",
    method: "line-scale",
    people: 12,
    spares: 1,
    products: [...plan.products, third],
    scale: {
      lengthMm: 120,
      attributes: [
        {
          id: juiciness,
          name: "Juiciness",
          adjective: "juicy",
          definition: "Juice that is felt in the mouth while chewing.",
          form: { kind: "line" },
          lowAnchor: "not at all juicy",
          highAnchor: "extremely juicy",
          moment: { at: "after", seconds: 10 },
          further: [],
          inFamily: false,
        },
      ],
    },
    waves: plan.waves.map((wave, at) => ({
      ...wave,
      people: 6,
      batches: { ...wave.batches, [rested]: [`R${at + 1}`] },
    })),
    declarations: [...plan.declarations, ...(declared ? [{ ...declared, of: rested }] : [])],
    ...changes,
  };
}

/** The same three products judged in steps: juiciness on five, liking on nine, and whether they are juicy enough. */
export function stepsPlan(changes: Partial<Plan> = {}): Plan {
  const plan = linePlan();
  const [first] = plan.scale.attributes;
  if (!first) throw new Error("no property");
  const same = { ...first, lowAnchor: "", highAnchor: "", moment: { at: "before-swallowing" as const } };
  const five = ["not at all juicy", "a little juicy", "juicy", "very juicy", "extremely juicy"];
  const nine = ["dislike extremely", "", "", "", "neither like nor dislike", "", "", "", "like extremely"];
  const attributes: Plan["scale"]["attributes"] = [
    { ...same, form: { kind: "steps", labels: five, liking: false } },
    {
      ...{ ...same, id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6be1", name: "Liking", adjective: "" },
      form: { kind: "steps", labels: nine, liking: true },
    },
    {
      ...{ ...same, id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6be2", name: "Enough juice", adjective: "juiciness" },
      form: { kind: "just-right", labels: ["too little", "just right", "too much"] },
    },
  ];
  return { ...plan, title: "Steam first: liked?", scale: { ...plan.scale, attributes }, ...changes };
}

export const held = "4d0e5f86-a3bb-4b9d-8f30-4c1d8e5a6b0b";

/** The two processes, the new one rested and held, in order of juiciness; the order that the kitchen expects is named. */
export function rankingPlan(changes: Partial<Plan> = {}): Plan {
  const line = linePlan();
  const [first = "", second = ""] = line.products.map(({ id }) => id);
  const [declared] = line.declarations;
  return {
    ...line,
    title: "Steam first: in which order?",
    objective: "Which of the four is juicier than which?",
    method: "ranking",
    scale: emptyPlan().scale,
    ranking: {
      name: "Juiciness",
      least: "least juicy",
      most: "most juicy",
      definition: "Juice that is felt in the mouth while chewing.",
      predicted: [first, held, second, rested],
      liking: false,
    },
    products: [
      ...line.products,
      { id: held, name: "new, held", preparation: "As new, then held for 40 min at 63 °C." },
    ],
    waves: line.waves.map((wave, at) => ({ ...wave, batches: { ...wave.batches, [held]: [`H${at + 1}`] } })),
    declarations: [...line.declarations, ...(declared ? [{ ...declared, of: held }] : [])],
    ...changes,
  };
}

export const inert = "8f3b9c1a-6dee-4fa1-8b52-9e4f0b7c8d0c";

/**
 * Portions of 5 g of the two processes and of an inert control, chewed for 15 s, weighed before and after; three trays a
 * person.
 */
export function chewPlan(changes: Partial<Plan> = {}): Plan {
  const plan = readyPlan();
  const [declared] = plan.declarations;
  return {
    ...plan,
    title: "Steam first: what do chewed portions gain?",
    objective: "Do chewed portions of the two processes gain the same?",
    method: "chew-and-weigh",
    people: 12,
    repeats: 3,
    spares: 1,
    chew: { ...plan.chew, balanceStep: "0.01", control: inert, matters: 3 },
    serving: { ...plan.serving, portionGrams: 5, warmUp: false, pauseSeconds: 60 },
    products: [
      ...plan.products,
      { id: inert, name: "silicone ball", preparation: "A food-grade silicone ball of 5 g." },
    ],
    waves: plan.waves.map((wave) => ({ ...wave, people: 6, batches: { ...wave.batches, [inert]: ["S1"] } })),
    declarations: [
      ...plan.declarations,
      ...(declared ? [{ ...declared, of: inert, contains: [], mayContain: [], none: true }] : []),
    ],
    ...changes,
  };
}

const [current = "", steamed = ""] = readyPlan().products.map(({ id }) => id);

/** What is asked of a directional choice; the new process is expected to have more of it. */
export const juicier: Plan["properties"][number] = {
  id: "5a0c7b18-d4ee-4c1f-9a52-6e3f0a7c8d05",
  name: "Juiciness",
  comparative: "juicier",
  definition: "Juice that is felt in the mouth while chewing.",
  expected: steamed,
  inFamily: true,
};
const saltier = { ...juicier, id: "6b1d8c29-e5ff-4d20-8b63-7f401b8d9e06", name: "Saltiness", comparative: "saltier" };

/** A plan of each choice method, with nothing missing. */
export const choicePlans = (): [string, Plan][] => [
  ["triangle", readyPlan()],
  ["duo-trio, constant", readyPlan({ method: "duo-trio", reference: { kind: "constant", product: current } })],
  ["duo-trio, balanced", readyPlan({ method: "duo-trio" })],
  ["paired difference, one-sided", readyPlan({ method: "paired-difference", properties: [juicier, saltier] })],
  [
    "paired difference, two-sided",
    readyPlan({ method: "paired-difference", sides: "two", properties: [{ ...juicier, expected: null }] }),
  ],
  ["three-alternative", readyPlan({ method: "three-alternative", properties: [juicier] })],
  ["tetrad", readyPlan({ method: "tetrad" })],
  ["same-different", readyPlan({ method: "same-different", dPrimeSought: 1.5 })],
  ["A-not-A", readyPlan({ method: "a-not-a", dPrimeSought: 1.5, reference: { kind: "constant", product: current } })],
  ["preference", preferencePlan()],
];

/** Twelve people with two trays each: all in one sitting, or one in each of two sessions. */
export function repeated(plan: Plan, repeatsIn: Plan["repeatsIn"]): Plan {
  const waves = plan.waves.map((wave, at) =>
    repeatsIn === "sessions" ? { ...wave, people: 12, session: `day ${at + 1}` } : { ...wave, people: 6, session: "" },
  );
  return { ...plan, people: 12, repeats: 2, repeatsIn, waves };
}
