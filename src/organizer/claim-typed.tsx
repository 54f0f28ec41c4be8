import type { Measure, TypedFinding } from "../model/claim.ts";
import { focusSoon } from "../ui/focus.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { changeMeasure, namesOf } from "./claim-edit.ts";
import { TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { ClaimDraft } from "./use-claim.ts";

const words = claimWords.typed;
const empty: TypedFinding = {
  ...{ difference: null, low: null, high: null, unit: "", matters: null, source: "" },
};
const largest = 1_000_000;

/** A result of a weighing that was worked out elsewhere, with its source. */
export function TypedResult({ draft, measure }: { draft: ClaimDraft; measure: Measure }) {
  const { id, typed } = measure;
  const field = (what: string): string => `measure-${id}-typed-${what}`;
  const set = (change: Partial<TypedFinding>): void =>
    draft.edit((before) => changeMeasure(before, id, { typed: { ...(typed ?? empty), ...change } }));
  if (typed === null) {
    return (
      <p class="after">
        <button
          type="button"
          id={field("add")}
          onClick={() => {
            set({});
            focusSoon(field("difference"));
          }}
        >
          {words.add}
        </button>
      </p>
    );
  }
  const names = namesOf(draft.claim, { first: claimWords.claim.unnamedFirst, second: claimWords.claim.unnamedSecond });
  return (
    <fieldset class="field group">
      <legend>{words.heading}</legend>
      <p class="fine">{words.hint(names)}</p>
      <div class="row">
        {(["difference", "low", "high"] as const).map((what) => (
          <NumberField
            key={what}
            id={field(what)}
            label={words[what]}
            value={typed[what]}
            {...{ low: -largest, high: largest, mayBeEmpty: true }}
            onValue={(value) => set({ [what]: value })}
          />
        ))}
      </div>
      <TextField
        id={field("unit")}
        label={words.unit}
        hint={words.unitHint}
        value={typed.unit}
        onInput={(unit) => set({ unit })}
      />
      <NumberField
        id={field("matters")}
        label={words.matters}
        hint={words.mattersHint}
        value={typed.matters}
        {...{ low: 1e-6, high: largest, mayBeEmpty: true }}
        onValue={(matters) => set({ matters })}
      />
      <TextField
        id={field("source")}
        label={words.source}
        hint={words.sourceHint}
        rows={2}
        value={typed.source}
        onInput={(source) => set({ source })}
      />
      <button
        type="button"
        class="quiet"
        onClick={() => {
          draft.edit((before) => changeMeasure(before, id, { typed: null }), words.removed);
          focusSoon(field("add"));
        }}
      >
        {words.remove}
      </button>
    </fieldset>
  );
}
