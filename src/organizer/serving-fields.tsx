import type { Plan } from "../model/plan.ts";
import { chewWords } from "../words/en/organizer-chew.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";

const words = planWords.samples;

type Props = {
  /** Begins the ids of the fields: "samples" in a plan, "kitchen" in the defaults. */
  id: string;
  serving: Plan["serving"];
  set: (change: Partial<Plan["serving"]>) => void;
};

/** Portion, temperature, vessel. */
export function CupFields({ id, serving, set, vesselHint }: Props & { vesselHint?: string }) {
  return (
    <>
      <div class="row">
        <NumberField
          id={`${id}-portion`}
          label={words.portion}
          unit={words.grams}
          value={serving.portionGrams}
          low={0.1}
          high={1000}
          mayBeEmpty
          onValue={(portionGrams) => set({ portionGrams })}
        />
        <NumberField
          id={`${id}-celsius`}
          label={words.temperature}
          unit={words.celsius}
          value={serving.servingCelsius}
          low={-30}
          high={100}
          mayBeEmpty
          onValue={(servingCelsius) => set({ servingCelsius })}
        />
      </div>
      <TextField
        id={`${id}-vessel`}
        label={words.vessel}
        {...(vesselHint ? { hint: vesselHint } : {})}
        value={serving.vessel}
        onInput={(vessel) => set({ vessel })}
      />
    </>
  );
}

/** Cleanser, pause, swallowing, tasting again (null: all is spat, and nothing tasted twice), warm-up. */
export function TastingFields({ id, serving, set, retaste }: Props & { retaste: string | null }) {
  return (
    <>
      <TextField
        id={`${id}-cleanser`}
        label={words.cleanser}
        value={serving.cleanser}
        onInput={(cleanser) => set({ cleanser })}
      />
      <NumberField
        id={`${id}-pause`}
        label={words.pause}
        hint={words.pauseHint}
        unit={words.seconds}
        value={serving.pauseSeconds}
        low={0}
        high={600}
        whole
        onValue={(pauseSeconds) => pauseSeconds !== null && set({ pauseSeconds })}
      />
      {retaste === null ? (
        <p class="fine">{chewWords.spits}</p>
      ) : (
        <>
          <Choice
            id={`${id}-swallow`}
            legend={words.swallow}
            options={words.swallowOptions}
            value={serving.swallow}
            onChange={(swallow) => set({ swallow })}
          />
          <Check
            id={`${id}-retaste`}
            label={retaste}
            checked={serving.retaste}
            onChange={(again) => set({ retaste: again })}
          />
        </>
      )}
      <Check
        id={`${id}-warm-up`}
        label={words.warmUp}
        checked={serving.warmUp}
        onChange={(warmUp) => set({ warmUp })}
      />
      {serving.warmUp ? (
        <TextField
          id={`${id}-warm-up-what`}
          label={words.warmUpWhat}
          value={serving.warmUpWhat}
          onInput={(warmUpWhat) => set({ warmUpWhat })}
        />
      ) : null}
    </>
  );
}
