import { join } from "node:path";
import type { Plan } from "../../../src/model/plan.ts";
import { compiled } from "../critical-numbers/answers.ts";
import { alternate, figureOf, medianOf } from "../pair.ts";
import { RSide } from "../r.ts";
import { type GoalReport, isNoisy, short } from "../report.ts";
import { faultsOf } from "./faults.ts";

type Trays = typeof import("../../../src/design/trays.ts");
type Readiness = typeof import("../../../src/design/readiness.ts");
type Random = typeof import("../../../src/seal/random.ts");
type Rehearsal = typeof import("../../../src/design/rehearsal.ts");

/** As many trays as tray numbers go to, in waves that a room holds. */
const waves = { count: 250, people: 39 } as const;
const spares = 249;
const rehearsed = 1000;
const rehearsalMs = 2000;

/**
 * Goal 11: orders, codes and spare trays for 9,750 panelists and 6 products, in 250 waves; and 1,000 rehearsals of a
 * triangle of 24.
 *
 * The baseline is what a script would do for 10,000: loops over R's `sample`, without rules for codes or balance. Ours is
 * `makeTrays` whole, key and batches included, with the platform's cryptographic source.
 */
export async function design(quick: boolean): Promise<GoalReport> {
  const { makeTrays } = await compiled<Trays>("design/trays");
  const { cryptoUniform, newSeed } = await compiled<Random>("seal/random");
  const plan = await largePlan();
  const once = () => makeTrays(plan, plan.waves[0]?.id ?? "", { seed: newSeed(), codes: cryptoUniform() });
  const faults = faultsOf(once(), plan);
  const ours = async (): Promise<number> => timed(once);
  const rounds = quick ? 3 : 9;
  const rehearsal = await rehearsals(quick);
  const r = await RSide.open(join(import.meta.dirname, "design.R"), []);
  try {
    const baseline = async (): Promise<number> => (r ? (await r.seconds(1)) * 1000 : Number.NaN);
    if (r) await r.numbers();
    const found = await alternate(rounds, { baseline, ours });
    return reportOf(found, r !== null, faults, rehearsal);
  } finally {
    r?.close();
  }
}

const timed = (work: () => unknown): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

async function largePlan(): Promise<Plan> {
  const { emptyPlan } = await compiled<Readiness>("design/readiness");
  const id = (at: number) => `00000000-0000-4000-8000-${String(at).padStart(12, "0")}`;
  const products = Array.from({ length: 6 }, (_, at) => ({ id: id(at), name: `product ${at}`, preparation: "" }));
  const batches = Object.fromEntries(products.map((product) => [product.id, ["1", "2"]]));
  return {
    ...emptyPlan(),
    method: "line-scale",
    people: waves.count * waves.people,
    spares,
    products,
    waves: Array.from({ length: waves.count }, (_, at) => ({
      id: id(100 + at),
      starts: "",
      people: waves.people,
      session: "",
      batches,
    })),
  };
}

/** Milliseconds of the worker's own code for 1,000 studies: half with a difference, half without. */
async function rehearsals(quick: boolean): Promise<number[]> {
  const { rehearse } = await compiled<Rehearsal>("design/rehearsal");
  const { emptyPlan } = await compiled<Readiness>("design/readiness");
  const plan = emptyPlan();
  const once = (seed: string): number =>
    timed(() => {
      const going = rehearse({ plan, effect: 0.3, deviation: 12, plays: rehearsed / 2, seed }, "bench");
      while (!going.next().done);
    });
  return Array.from({ length: quick ? 2 : 7 }, (_, at) => once(String(at)));
}

const frame = {
  goal: 11 as const,
  title: "Serving plan for 9,750 panelists and 6 products with codes and 249 spare trays; 1,000 rehearsals",
};

type Found = Awaited<ReturnType<typeof alternate<number>>>;

function reportOf({ baseline, ours, load }: Found, withR: boolean, faults: string[], rehearsal: number[]): GoalReport {
  const figure = figureOf("the whole serving plan", "ms", baseline, ours);
  const ratio = figure.ratio.median;
  const played = medianOf(rehearsal);
  return {
    ...frame,
    sides: {
      baseline: withR ? "loops over sample, timed inside R" : "none: there is no R here",
      ours: "makeTrays, compiled",
    },
    figures: withR ? [figure] : [],
    limits: [
      {
        grade: "must",
        text: `counts and code rules hold (${faults.length === 0 ? "no fault" : faults.join("; ")})`,
        met: faults.length === 0,
      },
      ...(withR
        ? [
            { grade: "must" as const, text: `at most 0.25 × R (${short(ratio)})`, met: ratio <= 0.25 },
            { grade: "stretch" as const, text: `at most 0.05 × R (${short(ratio)})`, met: ratio <= 0.05 },
          ]
        : []),
      {
        grade: "must",
        text: `1,000 rehearsals within ${rehearsalMs} ms (${short(played)})`,
        met: played <= rehearsalMs,
      },
    ],
    notes: [
      `1,000 rehearsals of a triangle of 24: ${short(played)} ms (${short(Math.min(...rehearsal))} to ${short(Math.max(...rehearsal))})`,
    ],
    load,
    noisy: isNoisy(load),
  };
}
