import { expect, test } from "vitest";
import { copyOfPlan, planOfKitchen } from "../../src/design/begin.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { type Attribute, attribute } from "../../src/model/attribute.ts";
import type { Plan } from "../../src/model/plan.ts";
import { read } from "../../src/model/schema.ts";
import { kitchenOf } from "./kitchen.ts";
import { linePlan } from "./scenario.ts";

const [juicy] = linePlan().scale.attributes;
const id = (place: number): string => `7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf${place}`;

/** Juiciness before swallowing, and also after ten seconds and at the first bite; saltiness at the first bite. */
function overTheChew(): Plan {
  if (!juicy) throw new Error("no attribute in the scenario");
  const moments: Attribute = {
    ...juicy,
    moment: { at: "before-swallowing" },
    further: [
      { id: id(1), moment: { at: "after", seconds: 10 } },
      { id: id(2), moment: { at: "first-bite" } },
    ],
  };
  const salty: Attribute = { ...juicy, id: id(3), name: "Saltiness", adjective: "salty", moment: { at: "first-bite" } };
  const plan = linePlan();
  return { ...plan, scale: { ...plan.scale, attributes: [moments, salty] } };
}

test("a property from before there were further moments has none", () => {
  const { further: _none, ...older } = juicy ?? ({} as Attribute);
  expect(read(attribute, older).further).toEqual([]);
});

test("a tablet is asked each property once for each moment, in the order of the chew, and knows of no further field", () => {
  const { line } = blindPacketOf(overTheChew(), id(0), [], "0".repeat(64));
  expect(line?.attributes.map(({ id, name, moment }) => [id, name, moment.at])).toEqual([
    [id(2), "Juiciness", "first-bite"],
    [id(3), "Saltiness", "first-bite"],
    [id(1), "Juiciness", "after"],
    [juicy?.id, "Juiciness", "before-swallowing"],
  ]);
  for (const asked of line?.attributes ?? []) {
    expect(Object.keys(asked)).not.toContain("further");
    // what counts for the verdict is no panelist's business
    expect(Object.keys(asked)).not.toContain("inFamily");
  }
});

test("a copy, and a plan begun from the kitchen's list, keep the moments under ids of their own", () => {
  let made = 0;
  const newId = (): string => {
    made += 1;
    return `00000000-0000-4000-8000-${String(made).padStart(12, "0")}`;
  };
  const moments = ({ scale }: Plan) =>
    scale.attributes.map(({ moment, further }) => [moment, ...further.map((one) => one.moment)]);
  const ids = ({ scale }: Plan) => scale.attributes.flatMap((one) => [one.id, ...one.further.map((other) => other.id)]);
  const plan = overTheChew();
  const copy = copyOfPlan({ study: id(9), plan }, [], newId);
  expect(moments(copy)).toEqual(moments(plan));
  const [first] = plan.scale.attributes;
  if (!first) throw new Error("no attribute");
  const begun = planOfKitchen({ ...kitchenOf(), properties: [{ ...first, starts: true }] }, newId);
  expect(moments(begun)).toEqual(moments(plan).slice(0, 1));
  const all = [...ids(plan), ...ids(copy), ...ids(begun)];
  expect(new Set(all).size).toBe(all.length);
});
