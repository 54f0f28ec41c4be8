import { useState } from "preact/hooks";
import { newId } from "../model/id.ts";
import type { KitchenProperty } from "../model/kitchen.ts";
import { focusSoon } from "../ui/focus.ts";
import { form as formWords } from "../words/en/organizer-form.ts";
import { kitchenWords } from "../words/en/organizer-kitchen.ts";
import { Check, TextField } from "./fields.tsx";
import { FormFields, kindOf } from "./form-fields.tsx";
import { FurtherMoments } from "./further-moments.tsx";
import { changeProperty, mostProperties, withoutProperty, withProperty } from "./kitchen-edit.ts";
import { MomentFields } from "./moment-fields.tsx";
import type { KitchenDraft } from "./use-kitchen.ts";

const words = kitchenWords.property;

/** The kitchen's list of properties: described once, used in every study in the same words. */
export function Properties({ draft }: { draft: KitchenDraft }) {
  const { properties } = draft.kitchen;
  const full = properties.length >= mostProperties;
  const add = (): void => {
    const id = newId();
    draft.edit((before) => withProperty(before, id));
    focusSoon(`property-${id}-name`);
  };
  return (
    <>
      <p class="fine">{kitchenWords.propertiesHint}</p>
      {properties.length === 0 ? <p class="after">{kitchenWords.none}</p> : null}
      {properties.map((property) => (
        <PropertyFields key={property.id} draft={draft} property={property} />
      ))}
      <p class="after-row">
        <button type="button" id="property-add" aria-disabled={full ? "true" : undefined} onClick={() => full || add()}>
          {words.add}
        </button>
        {full ? <span class="fine">{words.full(mostProperties)}</span> : null}
      </p>
    </>
  );
}

function PropertyFields({ draft, property }: { draft: KitchenDraft; property: KitchenProperty }) {
  const { id, name, moment, starts } = property;
  // a new one stands open, and stays so while its name is typed
  const [open, setOpen] = useState(name === "");
  const field = (what: string): string => `property-${id}-${what}`;
  const change = (what: Partial<KitchenProperty>): void => draft.edit((before) => changeProperty(before, id, what));
  return (
    <details class="declared" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {name.trim() || words.unnamed}:{" "}
        <span class="soft">{words.summary([moment, ...property.further.map((one) => one.moment)], starts)}</span>
      </summary>
      <Wording property={property} field={field} change={change} />
      <MomentFields
        id={field("moment")}
        legend={words.moment}
        moment={moment}
        onChange={(chosen) => change({ moment: chosen })}
      />
      <FurtherMoments
        id={field("moment")}
        attribute={property}
        mayAdd={property.form.kind !== "just-right"}
        onChange={(further, said) => draft.edit((before) => changeProperty(before, id, { further }), said)}
      />
      <Check
        id={field("starts")}
        label={words.starts}
        checked={starts}
        onChange={(checked) => change({ starts: checked })}
      />
      <button
        type="button"
        class="quiet"
        onClick={() => {
          draft.edit((before) => withoutProperty(before, id), words.removed(name.trim()));
          focusSoon("property-add");
        }}
      >
        {words.remove(name.trim())}
      </button>
    </details>
  );
}

type WordingProps = {
  property: KitchenProperty;
  field: (what: string) => string;
  change: (what: Partial<KitchenProperty>) => void;
};

function Wording({ property, field, change }: WordingProps) {
  const { name, adjective, definition, form } = property;
  const asked = formWords.adjective[kindOf(form)];
  return (
    <>
      <div class="pair">
        <TextField
          id={field("name")}
          label={words.name}
          hint={words.nameHint}
          value={name}
          onInput={(typed) => change({ name: typed })}
        />
        <TextField
          id={field("adjective")}
          label={asked.label}
          hint={asked.hint}
          value={adjective}
          onInput={(typed) => change({ adjective: typed })}
        />
      </div>
      <TextField
        id={field("definition")}
        label={words.definition}
        rows={2}
        value={definition}
        onInput={(typed) => change({ definition: typed })}
      />
      <FormFields id={field("how")} judged={property} onChange={change} />
      {form.kind === "line" ? <EndWords property={property} field={field} change={change} /> : null}
    </>
  );
}

function EndWords({ property: { lowAnchor, highAnchor }, field, change }: WordingProps) {
  return (
    <div class="pair">
      <TextField
        id={field("low")}
        label={words.low}
        value={lowAnchor}
        onInput={(typed) => change({ lowAnchor: typed })}
      />
      <TextField
        id={field("high")}
        label={words.high}
        value={highAnchor}
        onInput={(typed) => change({ highAnchor: typed })}
      />
    </div>
  );
}
