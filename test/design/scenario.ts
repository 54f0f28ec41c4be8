import { emptyPlan } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";

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
        batches: { [current]: ["C1", "C2"], [steamed]: ["N1", "N2"] },
      },
      {
        id: "11111111-2222-4333-8444-555555555502",
        starts: "12:00",
        people: 12,
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
    ...changes,
  };
}
