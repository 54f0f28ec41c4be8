import { newId } from "../model/id.ts";
import type { Property } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { TextField } from "./fields.tsx";
import { InFamily } from "./in-family.tsx";
import { changeProperty, mostQuestions, withoutProperty, withProperty } from "./plan-choice.ts";
import type { Draft } from "./use-draft.ts";

/** What a directional choice asks for: one or more properties, the first of which is the question. */
export function Properties({ draft }: { draft: Draft }) {
  const { properties } = draft.plan;
  return (
    <>
      <h3>{words.properties}</h3>
      {properties.length > 1 ? <p class="fine">{words.propertiesHint}</p> : null}
      {properties.map((property, at) => (
        <PropertyFields key={property.id} draft={draft} property={property} at={at} />
      ))}
      {properties.length < mostQuestions ? (
        <p class="after">
          <button
            type="button"
            id="property-add"
            onClick={() => {
              draft.edit((before) => withProperty(before, newId()));
              focusSoon(`property-${properties.length}-name`);
            }}
          >
            {words.add}
          </button>
        </p>
      ) : null}
    </>
  );
}

type PropertyProps = { draft: Draft; property: Property; at: number };

function PropertyFields({ draft, property, at }: PropertyProps) {
  const { id, name, comparative, definition } = property;
  const change = (what: Partial<Property>): void => draft.edit((before) => changeProperty(before, id, what));
  return (
    <fieldset class="group attribute">
      <legend class="label">{words.property(at)}</legend>
      <div class="pair">
        <TextField
          id={`property-${at}-name`}
          label={words.name}
          hint={words.nameHint}
          value={name}
          onInput={(typed) => change({ name: typed })}
        />
        <TextField
          id={`property-${at}-comparative`}
          label={words.comparative}
          hint={words.comparativeHint}
          value={comparative}
          onInput={(typed) => change({ comparative: typed })}
        />
      </div>
      <TextField
        id={`property-${at}-definition`}
        label={words.definition}
        rows={2}
        value={definition}
        onInput={(typed) => change({ definition: typed })}
      />
      {at > 0 ? (
        <InFamily
          id={`property-${at}-family`}
          checked={property.inFamily}
          onChange={(inFamily) => change({ inFamily })}
        />
      ) : null}
      <button
        type="button"
        class="quiet"
        onClick={() => {
          draft.edit((before) => withoutProperty(before, id), words.removed(name));
          focusSoon("property-add");
        }}
      >
        {words.remove(name)}
      </button>
    </fieldset>
  );
}
