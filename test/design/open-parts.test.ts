import { expect, test } from "vitest";
import { openParts } from "../../src/design/readiness.ts";
import type { OpenPart } from "../../src/model/open-part.ts";
import type { Plan } from "../../src/model/plan.ts";
import { openPartSentence } from "../../src/words/en/planning.ts";
import { choicePlans, juicier, linePlan, preferencePlan, rankingPlan, readyPlan, repeated } from "./scenario.ts";

/** What a plan of a choice test can lack: each is found exactly where it is missing. What is asked is common practice, no source. */

const [current = "", steamed = ""] = readyPlan().products.map(({ id }) => id);
const nobodys = "99999999-9999-4999-8999-999999999999";
const saltier = { ...juicier, id: "6b1d8c29-e5ff-4d20-8b63-7f401b8d9e06", name: "Saltiness", comparative: "saltier" };
const paired = (properties: Plan["properties"], changes: Partial<Plan> = {}): Plan =>
  readyPlan({ method: "paired-difference", properties, ...changes });
const threeCups = (properties: Plan["properties"]): Plan => readyPlan({ method: "three-alternative", properties });
const planOf = (name: string): Plan => choicePlans().find(([known]) => known === name)?.[1] ?? readyPlan();

/** So many people in one wave, each with so many trays in one sitting. */
function seated(people: number, repeats: number, plan: Plan): Plan {
  return { ...plan, people, repeats, waves: plan.waves.slice(0, 1).map((wave) => ({ ...wave, people })) };
}
/** Twelve people with a tray in each of two sessions, with the names and people of the two waves changed. */
function inSessions(names: [string, string], people: [number, number] = [12, 12]): Plan {
  const plan = repeated(readyPlan(), "sessions");
  const waves = plan.waves.map((wave, at) => ({ ...wave, session: names[at] ?? "", people: people[at] ?? 0 }));
  return { ...plan, waves };
}
const looks = (...at: number[]): Plan["stopping"] => ({ rule: "looks", at });
const sequential = { rule: "sequential", beta: 0.1 } as const;

const stopping: OpenPart[] = [{ part: "method", what: "stopping" }];
const lookNumbers: OpenPart[] = [{ part: "method", what: "look-numbers", least: 6, people: 24 }];
const tooFew = (people: number): OpenPart[] => [{ part: "people", what: "too-few-people", people, least: 6 }];
const reference: OpenPart[] = [{ part: "samples", what: "reference" }];
const distance: OpenPart[] = [{ part: "method", what: "distance-sought" }];
const field = (field: "name" | "comparative" | "definition", property: number, name: string): OpenPart[] => [
  { part: "method", what: "property-field", property, name, field },
];
const same: OpenPart[] = [{ part: "method", what: "same-property", property: 1, name: "Saltiness" }];
const expectedOf = (property: number, name: string): OpenPart => ({
  part: "samples",
  what: "expected",
  property,
  name,
});
const either = { ...juicier, expected: null };

const { predicted } = rankingPlan().ranking;
const ranked = (changes: Partial<Plan["ranking"]>): Plan =>
  rankingPlan({ ranking: { ...rankingPlan().ranking, ...changes } });
const predictedOrder: OpenPart[] = [{ part: "method", what: "predicted-order" }];
const rankingFields = (["name", "least", "most", "definition"] as const).map(
  (field): OpenPart => ({ part: "method", what: "ranking-field", field }),
);

const cases: [name: string, plan: Plan, open: OpenPart[]][] = [
  ["paired difference without a property", paired([]), [{ part: "method", what: "properties" }]],
  ["three cups without a property", threeCups([]), [{ part: "method", what: "properties" }]],
  [
    "properties left over from another method",
    readyPlan({ properties: [{ ...juicier, name: "", expected: null }] }),
    [],
  ],
  ["a property without a name", paired([{ ...juicier, name: " " }]), field("name", 0, " ")],
  [
    "a property without its word",
    paired([juicier, { ...saltier, comparative: "" }]),
    field("comparative", 1, "Saltiness"),
  ],
  ["a property without a definition", threeCups([{ ...juicier, definition: "" }]), field("definition", 0, "Juiciness")],
  ["the word of another property", paired([juicier, { ...saltier, comparative: " Juicier" }]), same],
  ["the name of another property", paired([{ ...juicier, name: "saltiness" }, saltier]), same],
  [
    "two properties without names, apart by their words",
    paired([
      { ...juicier, name: "" },
      { ...saltier, name: "" },
    ]),
    [...field("name", 0, ""), ...field("name", 1, "")],
  ],

  ["nothing expected, one-sided", paired([juicier, { ...saltier, expected: null }]), [expectedOf(1, "Saltiness")]],
  [
    "a product expected that is not there",
    threeCups([{ ...juicier, expected: nobodys }]),
    [expectedOf(0, "Juiciness")],
  ],
  ["nothing expected, two-sided", paired([either], { sides: "two" }), []],
  [
    "three cups are one-sided, whatever is left over",
    { ...threeCups([either]), sides: "two" },
    [expectedOf(0, "Juiciness")],
  ],
  [
    "three cups, two products expected",
    threeCups([juicier, { ...saltier, expected: current }]),
    [{ part: "samples", what: "one-expected" }],
  ],
  ["three cups, one product expected twice", threeCups([juicier, saltier]), []],
  ["two cups, two products expected", paired([juicier, { ...saltier, expected: current }]), []],

  [
    "duo-trio, constant, of no product",
    readyPlan({ method: "duo-trio", reference: { kind: "constant", product: null } }),
    reference,
  ],
  [
    "duo-trio, constant, of a product that is gone",
    readyPlan({ method: "duo-trio", reference: { kind: "constant", product: nobodys } }),
    reference,
  ],
  [
    "duo-trio, balanced, needs none",
    readyPlan({ method: "duo-trio", reference: { kind: "balanced", product: null } }),
    [],
  ],
  [
    "A-not-A without its A, balanced or not",
    { ...planOf("A-not-A"), reference: { kind: "balanced", product: null } },
    reference,
  ],
  [
    "A-not-A with its A, balanced or not",
    { ...planOf("A-not-A"), reference: { kind: "balanced", product: steamed } },
    [],
  ],
  ["a triangle has no reference", readyPlan({ reference: { kind: "constant", product: null } }), []],

  ["same-different without a distance", { ...planOf("same-different"), dPrimeSought: null }, distance],
  ["A-not-A without a distance", { ...planOf("A-not-A"), dPrimeSought: null }, distance],
  ["a tetrad seeks a share", readyPlan({ method: "tetrad", dPrimeSought: null }), []],

  ["looks at 6, 12 and 23 of 24", readyPlan({ stopping: looks(6, 12, 23) }), []],
  ["a look at 5", readyPlan({ stopping: looks(5, 12) }), lookNumbers],
  ["a look at the end", readyPlan({ stopping: looks(12, 24) }), lookNumbers],
  ["a look twice", readyPlan({ stopping: looks(12, 12) }), lookNumbers],
  ["looks that fall", readyPlan({ stopping: looks(12, 8) }), lookNumbers],
  ["Wald's lines", readyPlan({ stopping: sequential }), []],
  ["Wald's lines for everybody telling", readyPlan({ stopping: sequential, discriminatorShareSought: 1 }), stopping],
  ["looks at one directional question", paired([juicier], { stopping: looks(12) }), []],
  ["looks at two questions", paired([juicier, saltier], { stopping: looks(12) }), stopping],
  ["looks at a two-sided question", paired([either], { sides: "two", stopping: looks(12) }), stopping],
  ["looks at a preference", preferencePlan({ stopping: looks(12) }), stopping],
  ["looks at two kinds of trays", { ...planOf("same-different"), stopping: sequential }, stopping],
  ["looks for likeness", readyPlan({ goal: "similarity", stopping: looks(12) }), stopping],
  ["looks with repeats", { ...repeated(readyPlan(), "one-sitting"), stopping: looks(8) }, stopping],
  ["looks of more than 2,000 people", seated(2001, 1, readyPlan({ stopping: looks(1000) })), stopping],

  ["a ranking", rankingPlan(), []],
  ["a ranking that expects no order", ranked({ predicted: [] }), []],
  ["a ranking of nothing", ranked({ name: " ", least: "", most: "", definition: "" }), rankingFields],
  [
    "a ranking between two ends that are one",
    ranked({ most: " Least juicy" }),
    [{ part: "method", what: "same-ends" }],
  ],
  ["a ranking that expects three of four", ranked({ predicted: predicted.slice(1) }), predictedOrder],
  ["a ranking that expects one twice", ranked({ predicted: predicted.with(0, predicted[1] ?? "") }), predictedOrder],
  ["a ranking that expects a product that is gone", ranked({ predicted: predicted.with(0, nobodys) }), predictedOrder],
  [
    "a ranking of two products",
    rankingPlan({ products: rankingPlan().products.slice(0, 2), ranking: { ...rankingPlan().ranking, predicted: [] } }),
    [{ part: "samples", what: "products", count: 2, least: 3, most: 6 }],
  ],
  ["a ranking with repeats", rankingPlan({ repeats: 2 }), [{ part: "people", what: "repeats" }]],
  ["a line scale with repeats", linePlan({ repeats: 2 }), []],
  ["a triangle with repeats", repeated(readyPlan(), "one-sitting"), []],
  ["five people, ten trays each", seated(5, 10, readyPlan()), tooFew(5)],
  ["two people, twelve trays each", seated(2, 12, readyPlan()), tooFew(2)],
  ["six people", seated(6, 1, readyPlan()), []],
  ["one person, five trays", seated(1, 5, readyPlan()), tooFew(1)],
  ["one person, six trays", seated(1, 6, readyPlan()), []],
  // all right by guessing: 1 in 3^6 = 729, and 1 in 3^7 = 2,187
  [
    "one person, six trays, at a risk of 0.001",
    seated(1, 6, readyPlan({ alpha: 0.001 })),
    [{ part: "people", what: "no-critical-number", people: 1, risk: 0.001 }],
  ],
  ["one person, seven trays, at a risk of 0.001", seated(1, 7, readyPlan({ alpha: 0.001 })), []],
  ["six people with two trays each, at a risk of 0.001", seated(6, 2, readyPlan({ alpha: 0.001 })), []],
  ["one person, twelve directional trays", seated(1, 12, paired([juicier])), []],
  ["one person and a preference", seated(1, 12, preferencePlan()), tooFew(1)],
  ["one person, two-sided", seated(1, 12, paired([either], { sides: "two" })), tooFew(1)],
  ["one person and two kinds of trays", seated(1, 12, planOf("same-different")), tooFew(1)],
  ["one person and likeness", seated(1, 12, readyPlan({ goal: "similarity" })), tooFew(1)],

  ["two sessions for two trays", inSessions(["day 1", "day 2"]), []],
  [
    "one session for two trays",
    inSessions(["day 1", "day 1 "]),
    [{ part: "serving", what: "sessions", sessions: 1, repeats: 2 }],
  ],
  ["no names of sessions", inSessions(["", ""]), [{ part: "serving", what: "sessions", sessions: 1, repeats: 2 }]],
  [
    "three trays, two sessions",
    { ...inSessions(["day 1", "day 2"]), repeats: 3 },
    [{ part: "serving", what: "sessions", sessions: 2, repeats: 3 }],
  ],
  [
    "eleven of twelve on the second day",
    inSessions(["day 1", "day 2"], [12, 11]),
    [{ part: "serving", what: "people-in-session", session: "day 2", planned: 12, inWaves: 11 }],
  ],
  [
    "each session short",
    inSessions(["day 1", ""], [6, 6]),
    [
      { part: "serving", what: "people-in-session", session: "day 1", planned: 12, inWaves: 6 },
      { part: "serving", what: "people-in-session", session: "", planned: 12, inWaves: 6 },
    ],
  ],
  ["one tray a person: sessions are other people", readyPlan({ repeatsIn: "sessions" }), []],

  [
    "an earlier study with more nones than answers",
    normed({ none: 21, of: 20 }),
    [{ part: "method", what: "blank-norm", none: 21, of: 20 }],
  ],
  [
    "an earlier study that nobody answered",
    normed({ none: 0, of: 0 }),
    [{ part: "method", what: "blank-norm", none: 0, of: 0 }],
  ],
  ["an earlier study where all had no preference", normed({ none: 20, of: 20 }), []],
  [
    "such a study beside a preference that has to be said",
    { ...normed({ none: 21, of: 20 }), noPreference: "not-offered" },
    [],
  ],
  ["such a study left over from another method", readyPlan({ blankNorm: { title: "", none: 21, of: 20 } }), []],
];
function normed(counts: { none: number; of: number }): Plan {
  return preferencePlan({ blankNorm: { title: "Two alike", ...counts } });
}

test.each(cases)("%s", (_name, plan, open) => {
  expect(openParts(plan)).toEqual(open);
});

const kinds = [
  ...["properties", "property-field", "same-property", "expected", "one-expected", "reference", "distance-sought"],
  ...["stopping", "look-numbers", "repeats", "too-few-people", "sessions", "people-in-session", "blank-norm"],
];
test.each(kinds)("%s is found above, and said in sentences of its own, with what it counts and names", (what) => {
  const found = cases.flatMap(([, , open]) => open).filter((part) => part.what === what);
  expect(found).not.toEqual([]);
  const others = cases.flatMap(([, , open]) => open).filter((part) => part.what !== what);
  for (const part of found) {
    const said = openPartSentence(part);
    expect(said).toMatch(/^[A-Z0-9“].{15,}\.$/);
    expect(said).not.toMatch(/undefined|NaN|null|“”|“ ”/);
    expect(others.map(openPartSentence)).not.toContain(said);
    const { part: _, what: __, ...facts } = part;
    const told = Object.entries(facts).filter(([fact]) => fact !== "property" && fact !== "field");
    for (const [, value] of told) expect(said.replace("One person", "1 person")).toContain(String(value).trim());
  }
});
