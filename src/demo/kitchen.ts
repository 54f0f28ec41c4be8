import { emptyPlan } from "../design/readiness.ts";
import type { Declaration, Plan, Product, Wave } from "../model/plan.ts";
import type { SafetyLimit } from "../model/safety-limit.ts";
import { isHolding, usualLimits } from "../model/safety-limit.ts";

/**
 * Quillmere Kitchen, an invented central kitchen that cooks for four school canteens and a small hospital. It asks
 * whether steaming its turkey-and-barley meatballs first changes what people perceive. Nobody tasted anything.
 */
const preparedAlike =
  "Turkey-and-barley meatball, 32 g raw, one dough for all. At least 74 °C at the core, held hot at 63 °C at most 15 min, cut into 12 g samples, tasted 4 to 15 min after cutting.";

/** What the kitchen would do if it went by the new process. */
export const buyOven = "buy a second steam oven (6 400 crowns) if it also saves at least 4 points of cook loss";

export const current: Product = {
  id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b01",
  name: "current",
  preparation: `Dry oven, 200 °C, 14 min. ${preparedAlike}`,
};
export const steamed: Product = {
  id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b02",
  name: "new",
  preparation: `Steam, 95 °C, 9 min, then hot air, 230 °C, 3 min. ${preparedAlike}`,
};
export const rested: Product = {
  id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b03",
  name: "new + rest",
  preparation: `As new, then a covered rest of 8 min. ${preparedAlike}`,
};

/** Held hot: its time between the oven and the cup is a part of what it is, so it has a serving window of its own. */
export const held: Product = {
  id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b04",
  name: "new + held",
  preparation:
    "As new, then held covered for 40 min at 63 °C. Turkey-and-barley meatball, 32 g raw, one dough for all. At least 74 °C at the core, cut into 12 g samples when the holding ends, tasted 4 to 15 min after cutting: 44 to 55 min after the oven.",
};

/** The twelve panelists by seat. Names stand in the seating record of the lead's browser alone, never in the log. */
export const panelists: readonly string[] = [
  "Amara Voss",
  "Basil Okonjo",
  "Clea Duarte",
  "Dov Petersen",
  "Elif Marsh",
  "Fenn Ibarra",
  "Greta Solis",
  "Hamid Crane",
  "Ione Baptiste",
  "Jory Nakamura",
  "Kezia Holm",
  "Lucan Frey",
];

export const leadDeviceName = "Odalys Brandt's laptop";
export const tabletNames = ["Tablet A", "Tablet B", "Tablet C"] as const;

const meatball = (of: string): Declaration => ({
  of,
  contains: ["gluten-cereals", "egg", "milk", "celery"],
  mayContain: ["mustard"],
  other: "",
  none: false,
});
const crackers: Declaration = { of: "cleanser", contains: ["gluten-cereals"], mayContain: [], other: "", none: false };

/** Poultry, 74 °C, and the usual limits of holding, but hot at 63 °C by the kitchen's own rule. */
const limits: SafetyLimit[] = usualLimits()
  .filter((limit) => isHolding(limit) || limit.food.startsWith("Poultry"))
  .map((limit) =>
    limit.kind === "hot-holding" ? { ...limit, celsius: 63, source: "Quillmere Kitchen, rule of the house" } : limit,
  );

/** What all plans have in common. */
export function kitchenPlan(products: Product[]): Plan {
  return {
    ...emptyPlan(),
    invented: true,
    standsFor: "staff of the four canteens",
    products,
    looks: "masked",
    masking: "White lidded cups, amber dim light.",
    serving: {
      portionGrams: 12,
      servingCelsius: 55,
      vessel: "white lidded cups",
      cleanser: "Water and plain crackers",
      pauseSeconds: 45,
      swallow: "either",
      retaste: true,
      warmUp: true,
      warmUpWhat: "One meatball of the current process",
    },
    serverKnowsKey: false,
    place: "Quillmere Kitchen, tasting room. The cook fills the trays.",
    palette: "dim",
    declarations: [...products.map(({ id }) => meatball(id)), meatball("warm-up"), crackers],
    declarationsComplete: true,
    cautionsRead: ["hygiene", "choking"],
    cautionsApplying: ["hygiene", "choking"],
    carrier: false,
    limits,
    served: "meatballs of turkey and barley",
    contact: "Odalys Brandt, in the kitchen office",
  };
}

/** Waves of equally many people, each with one fresh batch of every product: "new 3" is the third of the new process. */
export function waves(starts: readonly string[], people: number, products: readonly Product[], firstBatch = 1): Wave[] {
  return starts.map((start, at) => ({
    id: `c1a7e55e-0d1e-4b3a-9c52-0000000000${String(firstBatch + at).padStart(2, "0")}`,
    starts: start,
    people,
    session: "",
    batches: Object.fromEntries(products.map(({ id, name }) => [id, [`${name} ${firstBatch + at}`]])),
  }));
}
