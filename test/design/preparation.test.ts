import { describe, expect, test } from "vitest";
import { preparation } from "../../src/design/preparation.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays, plannedTrays } from "../../src/design/trays.ts";
import type { Plan } from "../../src/model/plan.ts";
import { clockAfter } from "../../src/words/en/organizer-kitchen-papers.ts";
import { linePlan, preferencePlan, readyPlan } from "./scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const served = (plan: Plan, seed: string) => makeTrays(plan, study, { seed, codes: seeded(seed, "codes of a test") });

/** What each batch of each product really gives in each wave, by an opened key: counted anew, without the code under test. */
function poured(plan: Plan, seed: string): Map<string, number> {
  const { blind, key } = served(plan, seed);
  const cups = new Map<string, number>();
  for (const { tray, samples, reference } of key.trays) {
    const wave = blind.find((each) => each.tray === tray)?.wave;
    for (const { product, batch } of [...samples, ...(reference ? [reference] : [])]) {
      const name = `${wave} ${product} ${batch}`;
      cups.set(name, (cups.get(name) ?? 0) + 1);
    }
  }
  return cups;
}

const plans: [string, Plan][] = [
  ["a triangle", readyPlan()],
  [
    "a triangle in uneven waves",
    readyPlan({ people: 17, waves: readyPlan().waves.map((wave, at) => ({ ...wave, people: [7, 10][at] ?? 0 })) }),
  ],
  ["a duo-trio", readyPlan({ method: "duo-trio" })],
  ["a preference", preferencePlan()],
  ["a line scale", linePlan()],
  ["a triangle three times each", readyPlan({ repeats: 3 })],
];

describe("what the kitchen prepares", () => {
  test.each(plans)(
    "%s: whatever the lot brings, every batch gives at least and at most what the list says",
    (_, plan) => {
      const waves = preparation(plan, plannedTrays(plan));
      for (let draw = 0; draw < 20; draw++) {
        const cups = poured(plan, `draw ${draw}`);
        for (const { wave, products, coded, references } of waves) {
          let all = 0;
          for (const { product, portions, batches } of products) {
            let sum = 0;
            for (const { batch, portions: each } of batches) {
              const got = cups.get(`${wave} ${product.id} ${batch}`) ?? 0;
              expect(got).toBeGreaterThanOrEqual(each.least);
              expect(got).toBeLessThanOrEqual(each.most);
              sum += got;
            }
            expect(sum).toBeGreaterThanOrEqual(portions.least);
            expect(sum).toBeLessThanOrEqual(portions.most);
            all += sum;
          }
          expect(all).toBe(coded + references);
        }
      }
    },
  );

  test("whole blocks of a triangle leave nothing to the lot: 12 trays are two of six, so 18 cups of each product", () => {
    const plan = readyPlan({ spares: 0 });
    const [first] = preparation(plan, plannedTrays(plan));
    expect(first?.products.map(({ portions }) => portions)).toEqual([
      { least: 18, most: 18 },
      { least: 18, most: 18 },
    ]);
    expect([first?.coded, first?.references, first?.warmUps]).toEqual([36, 0, 12]);
  });

  test.each(plans)("%s: the trays planned before lock are those that are locked", (_, plan) => {
    const locked = served(plan, "any").blind.map(({ wave, spare, codes }) => ({ wave, spare, cups: codes.length }));
    expect(plannedTrays(plan)).toEqual(locked);
  });

  test("a plan whose batches have no names yet has its portions all the same", () => {
    const plan = readyPlan({ spares: 0, waves: readyPlan().waves.map((wave) => ({ ...wave, batches: {} })) });
    const [first] = preparation(plan, plannedTrays(plan));
    expect(first?.products.map(({ portions, batches }) => [portions.most, batches])).toEqual([
      [18, []],
      [18, []],
    ]);
  });

  test("a spare tray of a triangle holds two cups of one product at the most", () => {
    const waves = preparation(readyPlan({ spares: 3 }), plannedTrays(readyPlan({ spares: 3 })));
    expect(waves.flatMap(({ products }) => products.map(({ spare }) => spare)).reduce((sum, each) => sum + each)).toBe(
      3 * 2 * 2,
    );
  });

  test("clock times go over the hour and midnight; what is no clock time gives none", () => {
    expect([clockAfter("11:15", -20), clockAfter("0:05", -10), clockAfter("23:50", 12.4)]).toEqual([
      "10:55",
      "23:55",
      "00:02",
    ]);
    expect(clockAfter("after lunch", 5)).toBeNull();
  });
});
