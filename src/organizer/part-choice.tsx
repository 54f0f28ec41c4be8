import { shapeOf } from "../model/method.ts";
import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { Properties } from "./part-properties.tsx";
import { More } from "./part-stopping.tsx";
import type { Draft } from "./use-draft.ts";

/** What only some choice tests have: what is asked for, which way the test looks, intervals and the stopping rule. */
export function PartChoice({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  return (
    <>
      {shapeOf(plan.method).sides === "either" ? (
        <Choice
          id="method-sides"
          legend={words.sides}
          hint={words.sidesHint}
          options={words.sidesOptions}
          value={plan.sides}
          onChange={(sides) =>
            edit((before) => ({ ...before, sides, goal: sides === "two" ? "difference" : before.goal }))
          }
        />
      ) : null}
      {shapeOf(plan.method).property ? <Properties draft={draft} /> : null}
      {plan.method === "paired-preference" && plan.noPreference !== "not-offered" ? <Norm draft={draft} /> : null}
      <More draft={draft} />
    </>
  );
}

/** Counts of an earlier study of identical pairs. */
function Norm({ draft: { plan, edit } }: { draft: Draft }) {
  const norm = plan.blankNorm;
  const set = (change: Partial<NonNullable<typeof norm>>): void =>
    edit((before) => ({ ...before, blankNorm: { title: "", none: 0, of: 1, ...before.blankNorm, ...change } }));
  if (norm === null) {
    return (
      <p class="after">
        <button type="button" class="quiet" onClick={() => set({})}>
          {words.normAdd}
        </button>
      </p>
    );
  }
  return (
    <fieldset class="group">
      <legend class="label">{words.norm}</legend>
      <p class="fine">{words.normHint}</p>
      <TextField id="norm-title" label={words.normTitle} value={norm.title} onInput={(title) => set({ title })} />
      <NumberField
        id="norm-none"
        label={words.normNone}
        value={norm.none}
        low={0}
        high={5000}
        whole
        onValue={(none) => none !== null && set({ none })}
      />
      <NumberField
        id="norm-of"
        label={words.normOf}
        value={norm.of}
        low={1}
        high={5000}
        whole
        onValue={(of) => of !== null && set({ of })}
      />
      <button type="button" class="quiet" onClick={() => edit((before) => ({ ...before, blankNorm: null }))}>
        {words.normRemove}
      </button>
    </fieldset>
  );
}
