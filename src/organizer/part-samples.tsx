import { productBounds } from "../design/method.ts";
import { newId } from "../model/id.ts";
import { shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import { goesBy } from "../model/plan-question.ts";
import { focusSoon } from "../ui/focus.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { AdviceLine } from "./asked-questions.tsx";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { ComparisonFields } from "./part-comparisons.tsx";
import { Roles } from "./part-roles.tsx";
import { withLooks } from "./plan-advice.ts";
import { changeProduct, changeServing, withoutProduct, withProduct } from "./plan-edit.ts";
import { CupFields, TastingFields } from "./serving-fields.tsx";
import { WindowFields } from "./time-at-table.tsx";
import type { Draft } from "./use-draft.ts";

const words = planWords.samples;

/** Part 4: the products, the cup, and how it is tasted. */
export function PartSamples({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const set = (change: Partial<Plan>) => edit((before) => ({ ...before, ...change }));
  return (
    <>
      <Products draft={draft} />
      <Roles draft={draft} />
      {shapeOf(plan.method).answer === "marks" && plan.products.length > 2 ? <ComparisonFields draft={draft} /> : null}
      <Choice
        id="samples-looks"
        legend={words.looks}
        options={words.looksOptions}
        value={plan.looks}
        onChange={(looks) => edit((before) => withLooks(before, looks))}
      />
      {plan.looks === "differ" && plan.advised && !goesBy(plan, plan.advised) ? <AdviceLine plan={plan} /> : null}
      {plan.looks === "masked" ? (
        <TextField
          id="samples-masking"
          label={words.masking}
          hint={words.maskingHint}
          value={plan.masking}
          onInput={(masking) => set({ masking })}
        />
      ) : null}
      <Cup draft={draft} />
      <Tasting draft={draft} />
      <Choice
        id="samples-palette"
        legend={words.palette}
        options={words.paletteOptions}
        value={plan.palette}
        onChange={(palette) => set({ palette })}
      />
    </>
  );
}

function Products({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { least, most } = productBounds(plan);
  return (
    <>
      <p class="fine">{words.compares(least, most)}</p>
      <div class="products">
        {plan.products.map(({ id, name, preparation }, at) => (
          <fieldset key={id} class="group">
            <legend class="label">{words.letter(at)}</legend>
            <TextField
              id={`product-${at}-name`}
              label={words.name}
              value={name}
              onInput={(typed) => edit((before) => changeProduct(before, id, { name: typed }))}
            />
            <TextField
              id={`product-${at}-preparation`}
              label={words.preparation}
              rows={4}
              value={preparation}
              onInput={(typed) => edit((before) => changeProduct(before, id, { preparation: typed }))}
            />
            <button
              type="button"
              id={`product-${at}-remove`}
              class="quiet"
              onClick={() => {
                edit((before) => withoutProduct(before, id), words.removed(name));
                focusSoon(plan.products.length > most ? `product-${Math.max(0, at - 1)}-remove` : "samples-add");
              }}
            >
              {words.remove(name)}
            </button>
          </fieldset>
        ))}
      </div>
      {plan.products.length < most ? (
        <p>
          <button
            type="button"
            id="samples-add"
            onClick={() => {
              edit((before) => withProduct(before, newId()));
              focusSoon(`product-${plan.products.length}-name`);
            }}
          >
            {words.add}
          </button>
        </p>
      ) : null}
      {shapeOf(plan.method).answer === "marks" ? (
        <NumberField
          id="samples-per-tray"
          label={words.perTray}
          hint={words.perTrayHint}
          low={2}
          high={6}
          whole
          mayBeEmpty
          value={plan.perTray}
          onValue={(perTray) => edit((before) => ({ ...before, perTray }))}
        />
      ) : null}
    </>
  );
}

function Cup({ draft }: { draft: Draft }) {
  return (
    <fieldset class="group">
      <legend class="label">{words.sample}</legend>
      <CupFields {...servingOf(draft)} vesselHint={words.vesselHint} />
      <WindowFields draft={draft} />
    </fieldset>
  );
}

function Tasting({ draft }: { draft: Draft }) {
  return (
    <fieldset class="group">
      <legend class="label">{words.tasting}</legend>
      <TastingFields {...servingOf(draft)} retaste={retasteOf(draft.plan)} />
    </fieldset>
  );
}

/** The line for tasting again; null where every portion is spat out to be weighed. */
const retasteOf = ({ method }: Plan): string | null => {
  if (shapeOf(method).answer === "portions") return null;
  return method === "line-scale" ? words.retasteOnLine : words.retaste;
};

const servingOf = (draft: Draft) => ({
  id: "samples",
  serving: draft.plan.serving,
  set: (change: Partial<Plan["serving"]>) => draft.edit((before) => changeServing(before, change)),
});
