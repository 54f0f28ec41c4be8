import { familyOf } from "../analysis/method.ts";
import { ordersOf, partsOf } from "../design/method.ts";
import { inEachSession } from "../design/seating.ts";
import { seeksLikeness } from "../design/size-test.ts";
import type { Plan } from "../model/plan.ts";
import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { Draft } from "./use-draft.ts";

/** More samples than this tire a judge in one sitting (advice for cooked pork, seen in an abstract). */
const mostInSitting = 6;

/** Several trays a person: how many, when, and what they do and do not stand for. */
export function Repeats({ draft: { plan, edit } }: { draft: Draft }) {
  const samples = samplesInSitting(plan);
  const pooled = familyOf(plan.method, plan.sides) === "choice" && !seeksLikeness(plan);
  return (
    <>
      <NumberField
        id="people-repeats"
        label={words.repeats}
        hint={words.repeatsHint}
        value={plan.repeats}
        low={1}
        high={12}
        whole
        onValue={(repeats) => repeats !== null && edit((before) => ({ ...before, repeats }))}
      />
      {plan.repeats > 1 ? (
        <>
          <Choice
            id="people-repeats-in"
            legend={words.repeatsIn}
            options={words.repeatsInOptions}
            value={plan.repeatsIn}
            onChange={(repeatsIn) => edit((before) => ({ ...before, repeatsIn }))}
          />
          <p class="note">
            {pooled ? words.repeatsPooled(plan.people, plan.repeats) : words.repeatsByPerson(plan.people)}
          </p>
        </>
      ) : null}
      {samples > mostInSitting ? (
        <p class="note" role="status">
          {words.sitting(samples)}
        </p>
      ) : null}
    </>
  );
}

/** Samples that one person tastes in a sitting, the reference of each tray among them. */
function samplesInSitting(plan: Plan): number {
  const [order] = ordersOf(plan);
  if (order === undefined) return 0;
  const { reference, samples } = partsOf(order);
  return (samples.length + (reference === null ? 0 : 1)) * (inEachSession(plan) ? 1 : plan.repeats);
}
