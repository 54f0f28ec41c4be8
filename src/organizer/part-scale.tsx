import { useState } from "preact/hooks";
import { likingBesideIntensity } from "../design/open-form.ts";
import { type Attribute, lineLengths } from "../model/attribute.ts";
import { newId } from "../model/id.ts";
import { drawsLine } from "../model/steps.ts";
import { focusSoon } from "../ui/focus.ts";
import { form as formWords } from "../words/en/organizer-form.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Choice, TextField } from "./fields.tsx";
import { FormFields, kindOf } from "./form-fields.tsx";
import { FurtherMoments } from "./further-moments.tsx";
import { InFamily } from "./in-family.tsx";
import { MomentFields } from "./moment-fields.tsx";
import { NumberField } from "./number-field.tsx";
import {
  changeAttribute,
  mostAttributes,
  moveAttribute,
  withAttribute,
  withLength,
  withoutAttribute,
  withPicked,
} from "./plan-scale.ts";
import { PropertyPicker } from "./property-picker.tsx";
import { ScalePreview } from "./scale-preview.tsx";
import type { Draft } from "./use-draft.ts";

const words = planWords.scale;

/** The rating scales of a plan: how long the line is where there is one, and what is judged how. */
export function PartScale({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { attributes } = plan.scale;
  return (
    <>
      {attributes.length === 0 || drawsLine(attributes) ? <LineLength draft={draft} /> : null}
      {likingBesideIntensity(attributes) ? <p class="note">{formWords.likingBeside}</p> : null}
      <h3>{words.properties}</h3>
      <p class="fine">{words.order}</p>
      {attributes.length > 1 ? <p class="fine">{words.count}</p> : null}
      {attributes.map((attribute, at) => (
        <AttributeFields key={attribute.id} draft={draft} attribute={attribute} at={at} />
      ))}
      {attributes.length < mostAttributes ? (
        <>
          <PropertyPicker
            taken={attributes}
            onPick={(attribute) => {
              edit((before) => withPicked(before, attribute));
              focusSoon(`attribute-${attributes.length}-name`, "center");
            }}
          />
          <p class="after">
            <button
              type="button"
              id="scale-add"
              onClick={() => {
                edit((before) => withAttribute(before, newId()));
                focusSoon(`attribute-${attributes.length}-name`);
              }}
            >
              {words.add}
            </button>
          </p>
        </>
      ) : null}
    </>
  );
}

function LineLength({ draft }: { draft: Draft }) {
  const { lengthMm } = draft.plan.scale;
  const usual = words.lengths.find(({ value }) => value === String(lengthMm))?.value ?? "other";
  const [other, setOther] = useState(false);
  const chosen = other ? "other" : usual;
  const set = (length: number): void => draft.edit((before) => withLength(before, length));
  return (
    <>
      <Choice
        id="scale-length"
        legend={words.length}
        hint={words.lengthHint}
        options={words.lengths}
        value={chosen}
        onChange={(value) => {
          setOther(value === "other");
          if (value !== "other") set(Number(value));
        }}
      />
      {chosen === "other" ? (
        <NumberField
          id="scale-length-mm"
          label={words.other}
          unit={words.millimeter}
          value={lengthMm}
          low={lineLengths.least}
          high={lineLengths.most}
          onValue={(length) => length !== null && set(length)}
        />
      ) : null}
    </>
  );
}

type AttributeProps = { draft: Draft; attribute: Attribute; at: number };

/** One property. The ids of its fields are those that open parts lead to. */
function AttributeFields({ draft, attribute, at }: AttributeProps) {
  const { id, name, adjective, definition, form } = attribute;
  const asked = formWords.adjective[kindOf(form)];
  const set = (change: Partial<Attribute>): void => draft.edit((before) => changeAttribute(before, id, change));
  const field = (what: string): string => `attribute-${at}-${what}`;
  return (
    <fieldset class="group attribute">
      <legend class="label">{words.property(at)}</legend>
      <div class="pair">
        <TextField
          id={field("name")}
          label={words.name}
          hint={words.nameHint}
          value={name}
          onInput={(typed) => set({ name: typed })}
        />
        <TextField
          id={field("adjective")}
          label={asked.label}
          hint={asked.hint}
          value={adjective}
          onInput={(typed) => set({ adjective: typed })}
        />
      </div>
      <TextField
        id={field("definition")}
        label={words.definition}
        hint={words.definitionHint}
        rows={2}
        value={definition}
        onInput={(typed) => set({ definition: typed })}
      />
      <FormFields
        id={`attribute-${at}`}
        judged={attribute}
        onChange={(change, said) => draft.edit((before) => changeAttribute(before, id, change), said)}
      />
      {form.kind === "line" ? <EndWords attribute={attribute} field={field} set={set} /> : null}
      <MomentFields
        id={field("moment")}
        legend={attribute.further.length > 0 ? words.momentAbout : words.moment}
        moment={attribute.moment}
        onChange={(moment) => set({ moment })}
      />
      <FurtherMoments
        id={field("moment")}
        attribute={attribute}
        mayAdd={form.kind !== "just-right"}
        onChange={(further, said) => draft.edit((before) => changeAttribute(before, id, { further }), said)}
      />
      {at > 0 && form.kind !== "just-right" ? (
        <InFamily id={field("family")} checked={attribute.inFamily} onChange={(inFamily) => set({ inFamily })} />
      ) : null}
      <ScalePreview attribute={attribute} swallow={draft.plan.serving.swallow} />
      <AttributeButtons draft={draft} attribute={attribute} at={at} />
    </fieldset>
  );
}

type EndProps = {
  attribute: Attribute;
  field: (what: string) => string;
  set: (change: Partial<Attribute>) => void;
};

function EndWords({ attribute: { lowAnchor, highAnchor }, field, set }: EndProps) {
  return (
    <div class="pair">
      <TextField
        id={field("low-anchor")}
        label={words.low}
        value={lowAnchor}
        onInput={(typed) => set({ lowAnchor: typed })}
      />
      <TextField
        id={field("high-anchor")}
        label={words.high}
        value={highAnchor}
        onInput={(typed) => set({ highAnchor: typed })}
      />
    </div>
  );
}

function AttributeButtons({ draft, attribute, at }: AttributeProps) {
  const { id, name } = attribute;
  const count = draft.plan.scale.attributes.length;
  const move = (by: -1 | 1): void => {
    draft.edit((before) => moveAttribute(before, id, by));
    // the button that was pressed may be gone at the end of the list; the property is what was moved
    focusSoon(`attribute-${at + by}-name`, "center");
  };
  return (
    <p class="after-row">
      {at > 0 ? (
        <button type="button" class="quiet" onClick={() => move(-1)}>
          {words.up(name)}
        </button>
      ) : null}
      {at < count - 1 ? (
        <button type="button" class="quiet" onClick={() => move(1)}>
          {words.down(name)}
        </button>
      ) : null}
      <button
        type="button"
        class="quiet"
        onClick={() => {
          draft.edit((before) => withoutAttribute(before, id), words.removed(name));
          focusSoon("scale-add");
        }}
      >
        {words.remove(name)}
      </button>
    </p>
  );
}
