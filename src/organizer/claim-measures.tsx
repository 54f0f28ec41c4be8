import { useState } from "preact/hooks";
import {
  type Measure,
  measureAbouts,
  measureKinds,
  mostMeasures,
  type Prediction,
  predictionOf,
  predictions,
} from "../model/claim.ts";
import { newId } from "../model/id.ts";
import { focusSoon } from "../ui/focus.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { Attached } from "./claim-attached.tsx";
import { changeMeasure, namesOf, predictionsFor, withKind, withMeasure, withoutMeasure } from "./claim-edit.ts";
import type { ClaimStudy } from "./claim-results.ts";
import { TypedResult } from "./claim-typed.tsx";
import { Select, TextField } from "./fields.tsx";
import { WeighedBatches } from "./ledger-fields.tsx";
import type { ClaimDraft } from "./use-claim.ts";

const words = claimWords.measure;

type Props = { draft: ClaimDraft; studies: readonly ClaimStudy[] };

/** Everything that can be measured, with what each explanation predicts for it and the studies that measure it. */
export function Measures({ draft, studies }: Props) {
  const { measures } = draft.claim;
  const full = measures.length >= mostMeasures;
  const add = (): void => {
    const id = newId();
    draft.edit((before) => withMeasure(before, id));
    focusSoon(`measure-${id}-name`);
  };
  return (
    <section>
      <h2>{words.heading}</h2>
      <p class="fine">{words.hint}</p>
      {measures.length === 0 ? <p class="after">{words.none}</p> : null}
      {measures.map((measure) => (
        <MeasureFields key={measure.id} draft={draft} studies={studies} measure={measure} />
      ))}
      <p class="after-row">
        <button type="button" id="measure-add" aria-disabled={full ? "true" : undefined} onClick={() => full || add()}>
          {words.add}
        </button>
        {full ? <span class="fine">{words.full(mostMeasures)}</span> : null}
      </p>
    </section>
  );
}

export type MeasureProps = Props & { measure: Measure };

function MeasureFields(props: MeasureProps) {
  const { draft, measure } = props;
  const { id, name, kind } = measure;
  // a new one stands open, and stays so while its name is typed
  const [open, setOpen] = useState(name === "");
  const shown = name.trim() || words.unnamed;
  return (
    <details class="declared" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {shown}: <span class="soft">{words.kinds[kind]}</span>
      </summary>
      <WhatFields {...props} />
      <Predictions {...props} />
      {kind === "mass" ? <MassFields {...props} /> : <Attached {...props} />}
      <button
        type="button"
        class="quiet after"
        onClick={() => {
          draft.edit((before) => withoutMeasure(before, id), words.removed(shown));
          focusSoon("measure-add");
        }}
      >
        {words.remove(shown)}
      </button>
    </details>
  );
}

function WhatFields({ draft, studies, measure }: MeasureProps) {
  const { id, name, kind, about } = measure;
  const planOf = (study: string) => studies.find((each) => each.id === study)?.plan ?? null;
  const oneOf = <T extends string>(list: readonly T[], value: string): T | undefined =>
    list.find((each) => each === value);
  return (
    <>
      <div class="pair">
        <TextField
          id={`measure-${id}-name`}
          label={words.name}
          hint={words.nameHint}
          value={name}
          onInput={(typed) => draft.edit((before) => changeMeasure(before, id, { name: typed }))}
        />
        <Select
          id={`measure-${id}-kind`}
          label={words.kind}
          value={kind}
          options={measureKinds.map((value) => ({ value, label: words.kinds[value] }))}
          onChange={(value) => {
            const chosen = oneOf(measureKinds, value) ?? kind;
            draft.edit((before) => changeMeasure(before, id, withKind(measure, chosen, planOf)));
          }}
        />
      </div>
      {kind === "intensity" ? (
        <Select
          id={`measure-${id}-about`}
          label={words.about}
          value={about}
          options={measureAbouts.map((value) => ({ value, label: words.abouts[value] }))}
          onChange={(value) => {
            const chosen = oneOf(measureAbouts, value) ?? about;
            const effect = chosen === "interaction" ? ("interaction" as const) : ("pair" as const);
            const attached = measure.attached.map((each) => ({ ...each, effect }));
            draft.edit((before) => changeMeasure(before, id, { about: chosen, attached }));
          }}
        />
      ) : null}
    </>
  );
}

/** A mass comes from batches weighed here, or from a result that was worked out elsewhere. */
function MassFields({ draft, studies, measure }: MeasureProps) {
  return (
    <>
      {measure.typed === null ? <WeighedBatches draft={draft} studies={studies} measure={measure} /> : null}
      {measure.weighed === null ? <TypedResult draft={draft} measure={measure} /> : null}
    </>
  );
}

/** One choice for each explanation. */
function Predictions({ draft, measure }: MeasureProps) {
  const { claim } = draft;
  const names = namesOf(claim, { first: claimWords.claim.unnamedFirst, second: claimWords.claim.unnamedSecond });
  const options = predictionsFor(measure).map((value) => ({
    value: value as string,
    label: claimWords.predictions(value, measure.kind, measure.about === "interaction", names),
  }));
  const choose = (explanation: string, value: string): void => {
    const chosen: Prediction = predictions.find((each) => each === value) ?? "silent";
    draft.edit((before) =>
      changeMeasure(before, measure.id, { predictions: { ...measure.predictions, [explanation]: chosen } }),
    );
  };
  return (
    <fieldset class="field group predicts">
      <legend>{words.predicts}</legend>
      {claim.explanations.map(({ id, name }, at) => (
        <Select
          key={id}
          id={`measure-${measure.id}-predicts-${id}`}
          label={name.trim() || claimWords.explanation.unnamed(at)}
          value={predictionOf(measure, id)}
          options={options}
          onChange={(value) => choose(id, value)}
        />
      ))}
    </fieldset>
  );
}
