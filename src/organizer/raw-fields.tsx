import { piecesOf } from "../design/raw-draw.ts";
import type { DrawnRaw, Raw } from "../model/raw.ts";
import { rawWords as words } from "../words/en/raw.ts";
import { Check, Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { Draft } from "./use-draft.ts";

const atFirst: DrawnRaw = { drawn: "drawn", unit: "pieces", divided: false, perBatch: 1 };

/** Part 5: is it drawn which raw pieces or lots get which process? */
export function RawFields({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { raw } = plan;
  const set = (next: Raw): void => edit((before) => ({ ...before, raw: next }));
  const change = (part: Partial<DrawnRaw>): void =>
    edit((before) => (before.raw.drawn === "drawn" ? { ...before, raw: { ...before.raw, ...part } } : before));
  return (
    <>
      <Choice
        id="raw-drawn"
        legend={words.label}
        hint={words.hint}
        options={words.options}
        value={raw.drawn}
        onChange={(drawn) => set(drawn === "drawn" ? atFirst : { drawn })}
      />
      {raw.drawn === "drawn" ? (
        <fieldset class="group">
          <Choice
            id="raw-unit"
            legend={words.unit}
            options={words.units}
            value={raw.unit}
            onChange={(unit) => change({ unit })}
          />
          <NumberField
            id="raw-per-batch"
            label={words.perBatch(raw.unit)}
            value={raw.perBatch}
            low={1}
            high={50}
            whole
            onValue={(perBatch) => perBatch !== null && change({ perBatch })}
          />
          <Check
            id="raw-divided"
            label={words.divided}
            checked={raw.divided}
            onChange={(divided) => change({ divided })}
          />
          <p class="fine">{words.dividedHint}</p>
          {plan.waves.length > 0 ? <p class="fine">{words.needs(piecesOf(plan, raw), raw.unit)}</p> : null}
        </fieldset>
      ) : null}
    </>
  );
}
