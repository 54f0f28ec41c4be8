import { describe, expect, test } from "vitest";
import { advice, advisedOf, alternativesTo, askedNext } from "../../src/design/advice.ts";
import { emptyPlan } from "../../src/design/readiness.ts";
import { plannable, shapeOf } from "../../src/model/method.ts";
import type { Plan } from "../../src/model/plan.ts";
import {
  type Asked,
  aims,
  foods,
  goesBy,
  knows,
  nothingAsked,
  productCounts,
  wants,
} from "../../src/model/plan-question.ts";

type Rest = Partial<Pick<Plan, "looks" | "panelType">>;
const planned = (asked: Partial<Asked>, rest: Rest = {}) => ({
  ...{ looks: null, panelType: "colleagues" as const },
  ...rest,
  asked: { ...nothingAsked(), ...asked },
});
const adviceOn = (asked: Partial<Asked>, rest: Rest = {}) => {
  const given = advice(planned(asked, rest));
  if (given === null) throw new Error("no advice");
  return given;
};
const any: Partial<Asked> = { want: "any-difference", products: "two", aim: "difference", property: "no" };
const alike: Partial<Asked> = { ...any, aim: "too-small" };

/** Which method fits what; where a source is named, its scope was seen as an excerpt or abstract. */
describe("the method that fits the answers", () => {
  test.each<[string, string, Partial<Asked>, Rest]>([
    ["triangle", "nature unknown, homogeneous samples (ISO 4120:2021, scope)", { ...any, food: "ordinary" }, {}],
    ["tetrad", "mild food, more efficient than the triangle (ASTM E3009, significance)", { ...any, food: "mild" }, {}],
    ["duo-trio", "one product familiar (ISO 10399:2026, scope)", { ...any, food: "ordinary", knows: "one" }, {}],
    ["duo-trio", "three samples confuse (common practice, no source)", { ...any, knows: "confused" }, {}],
    ["same-different", "extreme or tiring food (ASTM E2139, scope)", { ...any, food: "tiring" }, {}],
    ["a-not-a", "looks differ and are not masked (from memory)", { ...any, food: "mild" }, { looks: "differ" }],
    [
      "tetrad",
      "masked looks are no hindrance (common practice, no source)",
      { ...any, food: "mild" },
      { looks: "masked" },
    ],
    ["paired-difference", "a named property (ISO 5495:2005, scope)", { want: "more-of", products: "two" }, {}],
    ["paired-difference", "which differs is known (ISO 5495:2005, scope)", { ...any, property: "yes" }, {}],
    ["paired-preference", "which is liked better (ASTM E2263, scope)", { want: "liking", products: "two" }, {}],
    ["ranking", "order of three or more (ISO 8587:2006)", { want: "order", products: "few" }, {}],
    ["ranking", "order of liking (ISO 8587:2006)", { want: "liking", products: "few" }, {}],
    ["line-scale", "how much of a property (ISO 4121, scope)", { want: "how-much", products: "two" }, {}],
    ["chew-and-weigh", "mass is weighed, not judged (common practice, no source)", { want: "chewed-mass" }, {}],
    ["line-scale", "more than a sitting bears: blocks (ISO 29842, scope)", { want: "order", products: "many" }, {}],
    ["triangle", "likeness of the whole (ISO 4120:2021, scope)", { ...alike, food: "ordinary" }, {}],
    ["duo-trio", "likeness: same-different has no such goal", { ...alike, food: "tiring" }, {}],
    [
      "triangle",
      "likeness: A-not-A has no such goal (ISO 8588:2017)",
      { ...alike, food: "ordinary" },
      { looks: "differ" },
    ],
  ])("%s: %s", (method, _, asked, rest) => {
    expect(adviceOn(asked, rest).method).toBe(method);
  });

  test("that nobody notices anything is not shown by one property, though it is known: others may give it away", () => {
    const given = adviceOn({ ...alike, property: "yes", food: "ordinary" });
    expect([given.method, given.goal]).toEqual(["triangle", "similarity"]);
    expect(given.alternatives).toContainEqual({
      ...{ method: "paired-difference", goal: "similarity", sides: "one", why: "that-property-alone" },
    });
  });
  test("one-sided only where somebody said beforehand which has more (ISO 5495:2005 asks for it)", () => {
    const sides = (expected: Asked["expected"]) => adviceOn({ want: "more-of", products: "two", expected }).sides;
    expect([sides("yes"), sides("no"), sides(null)]).toEqual(["one", "two", "two"]);
    const others = (expected: Asked["expected"]) =>
      adviceOn({ want: "more-of", products: "two", expected }).alternatives.map(({ method }) => method);
    expect(others("yes")).toContain("three-alternative");
    expect(others("no")).not.toContain("three-alternative");
  });
  test("a panel that knows one product gets it as the reference each time, else both take turns", () => {
    expect(adviceOn({ ...any, knows: "one" }).reference).toBe("constant");
    expect(adviceOn({ ...any, knows: "confused" }).reference).toBe("balanced");
  });
  test("nothing is advised before it is said what is to be found out", () => {
    expect(advice(planned({ ...any, want: null }))).toBeNull();
    expect(advisedOf(emptyPlan())).toBeNull();
    expect(askedNext(emptyPlan())).toEqual(["want"]);
  });
});

describe("what to beware of", () => {
  test.each<[string, Partial<Asked>, Rest]>([
    ["not-customers", { want: "liking" }, {}],
    ["two-at-a-time", { ...any, products: "few" }, {}],
    ["too-many-for-a-sitting", { want: "how-much", products: "many" }, {}],
    ["likeness-not-by-pairs", { want: "liking", aim: "too-small" }, {}],
    ["no-likeness", { want: "how-much", aim: "too-small" }, {}],
    ["likeness-needs-a-side", { want: "more-of", aim: "too-small", expected: "no" }, {}],
    ["gain-alone", { want: "chewed-mass" }, {}],
    ["up-to-four", { want: "chewed-mass", products: "many" }, {}],
    ["mask-first", { ...alike, food: "mild" }, { looks: "differ" }],
  ])("%s", (warning, asked, rest) => {
    expect(adviceOn(asked, rest).warnings).toContain(warning);
  });
  test("recruited consumers may be asked what they like", () => {
    expect(adviceOn({ want: "liking", products: "two" }, { panelType: "consumers" }).warnings).toEqual([]);
  });
});

describe("every set of answers", () => {
  const yesNo = ["yes", "no", null] as const;
  const all = wants.flatMap((want) =>
    [...productCounts, null].flatMap((products) =>
      [...aims, null].flatMap((aim) =>
        yesNo.flatMap((property) =>
          yesNo.flatMap((expected) =>
            [...foods, null].flatMap((food) =>
              [...knows, null].flatMap((known) =>
                (["alike", "differ", null] as const).map((looks) =>
                  planned({ want, products, aim, property, expected, food, knows: known }, { looks }),
                ),
              ),
            ),
          ),
        ),
      ),
    ),
  );

  test("leads to a method that can do what it is to do, beside others that are not it", () => {
    const wrong = all.filter((plan) => {
      const given = advice(plan);
      if (given === null) return true;
      const others = given.alternatives.map(({ method }) => method);
      return (
        !plannable.includes(given.method) ||
        others.includes(given.method) ||
        new Set(others).size !== others.length ||
        [given, ...given.alternatives].some(
          ({ method, goal }) => goal === "similarity" && !shapeOf(method).similarity,
        ) ||
        (plan.asked.products !== "two" &&
          plan.asked.products !== null &&
          given.goal === "similarity" &&
          shapeOf(given.method).products.most > 2)
      );
    });
    expect(all.length).toBe(6 * 4 * 3 * 3 * 3 * 4 * 4 * 3);
    expect(wrong).toEqual([]);
  });
  test("an answer to a question that is not asked changes nothing: whoever reads the record sees all that counted", () => {
    const heard = (plan: ReturnType<typeof planned>) => {
      const next = new Set(askedNext(plan));
      const kept = Object.entries(plan.asked).map(([key, value]) => [key, next.has(key as keyof Asked) ? value : null]);
      return { ...plan, asked: Object.fromEntries(kept) as Asked };
    };
    const changed = all.filter((plan) => JSON.stringify(advisedOf(plan)) !== JSON.stringify(advisedOf(heard(plan))));
    expect(changed.map(({ asked, looks }) => ({ ...asked, looks })).slice(0, 3)).toEqual([]);
  });
});

test("a plan goes by an advice of its method, whichever way it looks where the method has but one", () => {
  const said = { method: "triangle", goal: "difference", sides: "two" } as const;
  expect(goesBy({ ...said, sides: "one" }, said)).toBe(true);
  expect(goesBy({ ...said, goal: "similarity", sides: "one" }, said)).toBe(false);
  const paired = { method: "paired-difference", goal: "difference", sides: "one" } as const;
  expect(goesBy({ ...paired, sides: "two" }, paired)).toBe(false);
});

test("a plan against the advice is held beside it first; one without advice beside what is usual", () => {
  const asked = { ...nothingAsked(), ...any, food: "mild" as const };
  const other = { ...emptyPlan(), asked, method: "duo-trio" as const };
  expect(alternativesTo(other).map(({ method }) => method)).toEqual(["tetrad", "triangle", "paired-difference"]);
  expect(alternativesTo(emptyPlan()).map(({ method }) => method)).toEqual(["tetrad", "duo-trio", "paired-difference"]);
});
