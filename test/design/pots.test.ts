import { expect, test } from "vitest";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { pot } from "../../src/model/kitchen-event.ts";
import { misfit } from "../../src/model/schema.ts";
import { readyPlan } from "./scenario.ts";

const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const plan = readyPlan();
const made = (seed: string) => makeTrays(plan, study, { seed, codes: seeded("codes", "test") });

test("each batch has one label, in the key, and each wave the labels of its batches", () => {
  const { key, pots } = made("5eed");
  const named = plan.products.flatMap(({ id }) =>
    [...new Set(plan.waves.flatMap(({ batches }) => batches[id] ?? []))].map((batch) => `${id} ${batch}`),
  );
  expect((key.pots ?? []).map(({ product, batch }) => `${product} ${batch}`).sort()).toEqual([...named].sort());
  expect(new Set((key.pots ?? []).map((each) => each.pot)).size).toBe(named.length);
  for (const each of key.pots ?? []) expect(misfit(pot, each.pot)).toBeNull();
  plan.waves.forEach(({ batches }, at) => {
    const here = new Set(
      (key.pots ?? []).filter(({ product, batch }) => batches[product]?.includes(batch)).map((each) => each.pot),
    );
    expect(new Set(pots[at]?.pots)).toEqual(here);
    expect(here.size).toBe(Object.values(batches).flat().length);
  });
});

test("labels stand in the order of the alphabet, and another seed draws others for the same batches", () => {
  const seen = new Set<string>();
  const [product] = plan.products;
  const batch = plan.waves[0]?.batches[product?.id ?? ""]?.[0];
  for (let seed = 0; seed < 40; seed++) {
    const { key, pots } = made(`5eed${seed.toString(16)}0`);
    for (const { pots: labels } of pots) expect(labels).toEqual(labels.toSorted());
    const place = key.pots?.findIndex((each) => each.product === product?.id && each.batch === batch);
    seen.add(String(place));
  }
  // the first product's first batch stands in every place of the alphabet
  expect([...seen].sort()).toEqual((made("5eed").key.pots ?? []).map((_, at) => String(at)));
});
