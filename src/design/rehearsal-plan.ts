import { attribute } from "../model/attribute.ts";
import { shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import { read } from "../model/schema.ts";
import { productBounds } from "./method.ts";
import { inEachSession, sessionsOf } from "./seating.ts";

const letters = "ABCDEFGHIJKL";

/** An id that is nobody's: same kind, same number, same id. */
const idOf = (kind: number, at: number): string => `00000000-0000-4000-8${kind}00-${String(at + 1).padStart(12, "0")}`;

/**
 * The plan with what it lacks filled in, so that it can be played before anybody has bought the food: products by their
 * letters, one wave for all (or one a session), one batch of each product a wave, the roles of products. What the plan
 * says stays. No spare trays: nobody drops anything in a rehearsal.
 */
export function forRehearsal(plan: Plan): Plan {
  const { least, most } = productBounds(plan);
  const named = plan.products
    .slice(0, most)
    .map((product, at) => ({ ...product, name: product.name.trim() || letter(at) }));
  const missing = Array.from({ length: Math.max(0, least - named.length) }, (_, at) => ({
    id: idOf(1, named.length + at),
    name: letter(named.length + at),
    preparation: "",
  }));
  const products = [...named, ...missing];
  return withRoles({ ...plan, spares: 0, products, waves: wavesOf(plan, products) });
}

const letter = (at: number): string => letters[at] ?? "?";

function wavesOf(plan: Plan, products: Plan["products"]): Plan["waves"] {
  const sessions = inEachSession(plan);
  const inWaves = plan.waves.reduce((sum, { people }) => sum + people, 0);
  const fit = sessions
    ? sessionsOf(plan).length === plan.repeats && inWaves === plan.people * plan.repeats
    : inWaves === plan.people;
  const waves = fit
    ? plan.waves
    : Array.from({ length: sessions ? plan.repeats : 1 }, (_, at) => ({
        id: idOf(2, at),
        starts: "",
        people: plan.people,
        session: sessions ? String(at + 1) : "",
        batches: {},
      }));
  return waves.map((wave) => ({
    ...wave,
    batches: Object.fromEntries(products.map(({ id }) => [id, batchesOf(wave, id)])),
  }));
}

const batchesOf = ({ batches }: Plan["waves"][number], product: string): string[] => {
  const planned = batches[product] ?? [];
  return planned.length > 0 ? planned : ["1"];
};

/** Who is the reference, who is expected to have more, what is marked: as the plan says, else the first thing that fits. */
function withRoles(plan: Plan): Plan {
  const { method, products, reference, properties, scale } = plan;
  const shape = shapeOf(method);
  const known = (id: string | null): boolean => products.some((product) => product.id === id);
  const [first, second] = products.map(({ id }) => id);
  const asked = shape.property && properties.length === 0 ? [aProperty] : properties;
  const attributes = shape.answer === "marks" && scale.attributes.length === 0 ? [anAttribute] : scale.attributes;
  return {
    ...plan,
    reference: known(reference.product) ? reference : { ...reference, product: first ?? null },
    properties: asked.map((each) => (known(each.expected) ? each : { ...each, expected: second ?? null })),
    scale: { ...scale, attributes },
  };
}

const aProperty: Plan["properties"][number] = {
  id: idOf(3, 0),
  name: "X",
  comparative: "X",
  definition: "",
  expected: null,
  inFamily: true,
};
/** Read by its schema, so that what attributes have besides is as usual. */
const anAttribute = read(attribute, {
  id: idOf(4, 0),
  name: "X",
  adjective: "X",
  definition: "",
  lowAnchor: "",
  highAnchor: "",
  moment: { at: "first-bite" },
});
