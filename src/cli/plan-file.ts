import { readPlanFile } from "../archive/plan-file.ts";
import { emptyPlan } from "../design/readiness.ts";
import { newId } from "../model/id.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { planFileWords } from "../words/en/plan-file.ts";

/**
 * Reads a plan file for drawing trays: one exported from the app, or a shorter one written by hand. Without waves
 * everybody is in one, with one batch of each product.
 *
 * Throws   Problem "file/not-json", "file/wrong-shape" with the field at fault
 */
export function readPlan(text: string, path: string): { plan: Plan; oneWave: boolean } {
  const { expected } = planFileWords;
  const { plan } = readPlanFile(text, path, { empty: emptyPlan(), newId, expected });
  if (plan.people < 1) throw problem("file/wrong-shape", { path, where: "people", expected: expected.people });
  const oneWave = plan.waves.length === 0;
  return { plan: oneWave ? { ...plan, waves: [waveOfAll(plan)] } : plan, oneWave };
}

const waveOfAll = ({ people, products }: Plan): Plan["waves"][number] => ({
  id: newId(),
  starts: "",
  people,
  session: "",
  batches: Object.fromEntries(products.map(({ id }) => [id, ["1"]])),
});
