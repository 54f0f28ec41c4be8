import { readPlanFile } from "../archive/plan-file.ts";
import { copyOfPlan, emptyKitchen, planOfFile, planOfKitchen } from "../design/begin.ts";
import { blankOf } from "../design/blank.ts";
import { emptyPlan } from "../design/readiness.ts";
import { knownFacts } from "../device/pull.ts";
import { foldKitchen } from "../log/kitchen.ts";
import { kitchenStream } from "../model/event.ts";
import { newId } from "../model/id.ts";
import type { Plan } from "../model/plan.ts";
import { blankWords } from "../words/en/organizer-blank.ts";
import { studiesWords } from "../words/en/organizer-studies.ts";
import { planFileWords } from "../words/en/plan-file.ts";
import { appendEvent, type Lead } from "./app-context.ts";
import { readStudies } from "./facts.ts";
import { studyAddress } from "./route.ts";
import { planOf } from "./study-stage.ts";

/** Begins a study with what this kitchen usually does, as far as this device knows it, and goes there. */
export async function beginStudy(lead: Lead): Promise<void> {
  const { current } = foldKitchen(await knownFacts(lead.store, kitchenStream));
  await beginWith(lead, planOfKitchen(current?.kitchen ?? emptyKitchen(), newId));
}

/**
 * Begins a new study with the plan of another, locked or not, and goes there. The plan alone is taken over: codes,
 * seeds and keys are drawn at a lock and stay where they are.
 */
export async function copyStudy(lead: Lead, study: string, plan: Plan): Promise<void> {
  const titles = await titlesOf(lead);
  // a copy of the demo is nobody's demo
  const called = plan.invented ? studiesWords.withoutDemo(plan.title) : plan.title;
  await beginWith(lead, copyOfPlan({ study, plan, called }, titles, newId));
}

/** Begins a new study in which every cup holds one product, to try the tasting of this one, and goes there. */
export async function blankStudy(lead: Lead, study: string, plan: Plan): Promise<void> {
  const called = { ...plan, title: plan.invented ? studiesWords.withoutDemo(plan.title) : plan.title };
  await beginWith(lead, blankOf({ study, plan: called }, await titlesOf(lead), newId, blankWords.plan));
}

/**
 * Begins a new study with the plan of a file, and goes there.
 * Throws   the Problem of a file that holds none; nothing was begun then
 */
export async function beginWithFile(lead: Lead, text: string, name: string): Promise<void> {
  const file = readPlanFile(text, name, { empty: emptyPlan(), newId, expected: planFileWords.expected });
  await beginWith(lead, planOfFile(file, await titlesOf(lead), newId));
}

const titlesOf = async (lead: Lead): Promise<string[]> =>
  (await readStudies(lead.store)).flatMap(({ state }) => planOf(state)?.title ?? []);

async function beginWith(lead: Lead, plan: Plan): Promise<void> {
  const id = newId();
  await appendEvent(lead, {
    stream: { kind: "study", id },
    kind: "draft-saved",
    body: { base: null, merged: [], plan },
  });
  window.location.hash = studyAddress(id);
}
