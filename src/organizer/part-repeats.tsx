import { familyOf } from "../analysis/method.ts";
import { mostInSitting, samplesInSitting } from "../design/order-plan.ts";
import { seeksLikeness } from "../design/size-test.ts";
import { shapeOf } from "../model/method.ts";
import { chewWords } from "../words/en/organizer-chew.ts";
import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { Draft } from "./use-draft.ts";

/** Several trays a person: how many, when, and what they do and do not stand for. */
export function Repeats({ draft: { plan, edit } }: { draft: Draft }) {
  const samples = samplesInSitting(plan);
  const { answer } = shapeOf(plan.method);
  const averaged = answer === "marks";
  const pooled = familyOf(plan.method, plan.sides) === "choice" && !seeksLikeness(plan);
  return (
    <>
      <NumberField
        id="people-repeats"
        label={words.repeats}
        hint={answer === "portions" ? chewWords.repeatsHint : averaged ? words.repeatsOfMarks : words.repeatsHint}
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
            {answer === "portions"
              ? plan.people === 1
                ? chewWords.one
                : chewWords.usual
              : averaged
                ? words.repeatsAveraged(plan.people)
                : pooled
                  ? words.repeatsPooled(plan.people, plan.repeats)
                  : words.repeatsByPerson(plan.people)}
          </p>
        </>
      ) : null}
      {samples > mostInSitting && answer !== "portions" ? (
        <p class="note" role="status">
          {words.sitting(samples)}
        </p>
      ) : null}
    </>
  );
}
