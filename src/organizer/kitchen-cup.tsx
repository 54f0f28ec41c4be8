import type { Kitchen } from "../model/kitchen.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { withServing } from "./kitchen-edit.ts";
import { NumberField } from "./number-field.tsx";
import type { KitchenDraft } from "./use-kitchen.ts";

/** The labels are those of the plan: one word for one thing. */
const words = planWords.samples;

const served = (draft: KitchenDraft, change: Partial<Kitchen["serving"]>): void =>
  draft.edit((before) => withServing(before, change));

/** Portion, temperature, vessel. */
export function CupFields({ draft }: { draft: KitchenDraft }) {
  const { serving } = draft.kitchen;
  return (
    <>
      <div class="row">
        <NumberField
          id="kitchen-portion"
          label={words.portion}
          unit={words.grams}
          value={serving.portionGrams}
          low={0.1}
          high={1000}
          mayBeEmpty
          onValue={(portionGrams) => served(draft, { portionGrams })}
        />
        <NumberField
          id="kitchen-celsius"
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
        id="kitchen-vessel"
        label={words.vessel}
        value={serving.vessel}
        onInput={(vessel) => served(draft, { vessel })}
      />
    </>
  );
}

/** Cleanser, pause, swallowing, tasting again, warm-up. */
export function TastingFields({ draft }: { draft: KitchenDraft }) {
  const { serving } = draft.kitchen;
  return (
    <>
      <TextField
        id="kitchen-cleanser"
        label={words.cleanser}
        value={serving.cleanser}
        onInput={(cleanser) => served(draft, { cleanser })}
      />
      <NumberField
        id="kitchen-pause"
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
        id="kitchen-swallow"
        legend={words.swallow}
        options={words.swallowOptions}
        value={serving.swallow}
        onChange={(swallow) => served(draft, { swallow })}
      />
      <Check
        id="kitchen-retaste"
        label={words.retaste}
        checked={serving.retaste}
        onChange={(retaste) => served(draft, { retaste })}
      />
      <Check
        id="kitchen-warm-up"
        label={words.warmUp}
        checked={serving.warmUp}
        onChange={(warmUp) => served(draft, { warmUp })}
      />
      {serving.warmUp ? (
        <TextField
          id="kitchen-warm-up-what"
          label={words.warmUpWhat}
          value={serving.warmUpWhat}
          onInput={(warmUpWhat) => served(draft, { warmUpWhat })}
        />
      ) : null}
    </>
  );
}
