import { designMethod } from "../design/method.ts";
import { newId } from "../model/id.ts";
import type { Plan } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { changeProduct, changeServing, withoutProduct, withProduct } from "./plan-edit.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.samples;

/** Part 4: the products, the cup, and how it is tasted. */
export function PartSamples({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const set = (change: Partial<Plan>) => edit((before) => ({ ...before, ...change }));
  return (
    <>
      <Products draft={draft} />
      <Choice
        id="samples-looks"
        legend={words.looks}
        options={words.looksOptions}
        value={plan.looks}
        onChange={(looks) => set({ looks })}
      />
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
  const { least, most } = designMethod(plan.method).products;
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
    </>
  );
}

/** One part of the serving rules, changed. */
const served = (draft: Draft, change: Partial<Plan["serving"]>): void =>
  draft.edit((before) => changeServing(before, change));

function Cup({ draft }: { draft: Draft }) {
  const { serving } = draft.plan;
  return (
    <fieldset class="group">
      <legend class="label">{words.sample}</legend>
      <div class="row">
        <NumberField
          id="samples-portion"
          label={words.portion}
          unit={words.grams}
          value={serving.portionGrams}
          low={0.1}
          high={1000}
          mayBeEmpty
          onValue={(portionGrams) => served(draft, { portionGrams })}
        />
        <NumberField
          id="samples-celsius"
          label={words.temperature}
          unit={words.celsius}
          value={serving.servingCelsius}
          low={-30}
          high={100}
          mayBeEmpty
          onValue={(servingCelsius) => served(draft, { servingCelsius })}
        />
      </div>
      <TextField
        id="samples-vessel"
        label={words.vessel}
        hint={words.vesselHint}
        value={serving.vessel}
        onInput={(vessel) => served(draft, { vessel })}
      />
    </fieldset>
  );
}

function Tasting({ draft }: { draft: Draft }) {
  const { serving } = draft.plan;
  return (
    <fieldset class="group">
      <legend class="label">{words.tasting}</legend>
      <TextField
        id="samples-cleanser"
        label={words.cleanser}
        value={serving.cleanser}
        onInput={(cleanser) => served(draft, { cleanser })}
      />
      <NumberField
        id="samples-pause"
        label={words.pause}
        hint={words.pauseHint}
        unit={words.seconds}
        value={serving.pauseSeconds}
        low={0}
        high={600}
        whole
        onValue={(pauseSeconds) => pauseSeconds !== null && served(draft, { pauseSeconds })}
      />
      <Choice
        id="samples-swallow"
        legend={words.swallow}
        options={words.swallowOptions}
        value={serving.swallow}
        onChange={(swallow) => served(draft, { swallow })}
      />
      <Check
        id="samples-retaste"
        label={draft.plan.method === "line-scale" ? words.retasteOnLine : words.retaste}
        checked={serving.retaste}
        onChange={(retaste) => served(draft, { retaste })}
      />
      <Check
        id="samples-warm-up"
        label={words.warmUp}
        checked={serving.warmUp}
        onChange={(warmUp) => served(draft, { warmUp })}
      />
      {serving.warmUp ? (
        <TextField
          id="samples-warm-up-what"
          label={words.warmUpWhat}
          value={serving.warmUpWhat}
          onInput={(warmUpWhat) => served(draft, { warmUpWhat })}
        />
      ) : null}
    </fieldset>
  );
}
