import { verdictSteps } from "../analysis/scale-power.ts";
import { usualDeviation } from "../design/rehearsal.ts";
import type { ScaleSought } from "../model/plan.ts";
import { scaleSize as words } from "../words/en/organizer-scale-size.ts";
import { Dial } from "./dial.tsx";
import { EarlierScatter } from "./earlier-scatter.tsx";
import { TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { ScalePower } from "./scale-size.tsx";
import type { Draft } from "./use-draft.ts";

/** What is shown until the lead says something. */
const guess: ScaleSought = { difference: 10, deviation: usualDeviation, seenDeviation: null, from: words.guess };

/** Line scale: the difference that matters, how marks scatter, and what the people of the plan then find. */
export function ScaleSoughtPart({ draft: { plan, edit } }: { draft: Draft }) {
  const sought = plan.scaleSought ?? guess;
  const set = (change: Partial<ScaleSought>): void =>
    edit((before) => ({ ...before, scaleSought: { ...guess, ...before.scaleSought, ...change } }));
  return (
    <>
      <Figures sought={sought} set={set} />
      <p class="fine">{words.hint(verdictSteps(plan), sought.difference, sought.deviation)}</p>
      {plan.repeats > 1 ? <Seen sought={sought} set={set} /> : null}
      {plan.scaleSought === null ? (
        <p class="fine">
          {words.notKept}{" "}
          <button type="button" class="quiet" onClick={() => set({})}>
            {words.keep}
          </button>
        </p>
      ) : (
        <>
          <TextField
            id="people-from"
            label={words.from}
            hint={words.fromHint}
            value={sought.from}
            onInput={(from) => set({ from })}
          />
          <p class="after">
            <button
              type="button"
              class="quiet"
              onClick={() => edit((before) => ({ ...before, scaleSought: null }), words.leaveOut)}
            >
              {words.leaveOut}
            </button>
          </p>
        </>
      )}
      <EarlierScatter onTake={set} />
      <ScalePower plan={plan} sought={sought} />
      {plan.products.length > 1 ? <p class="note">{words.supposed(sought.from.trim() || words.guess)}</p> : null}
    </>
  );
}

/** What further trays do not average out. Left empty, nothing of it is supposed, and the sentence below says so. */
function Seen({ sought, set }: { sought: ScaleSought; set: (change: Partial<ScaleSought>) => void }) {
  return (
    <NumberField
      id="people-seen"
      label={words.seen}
      unit={words.points}
      hint={words.seenHint}
      value={sought.seenDeviation}
      low={0}
      high={sought.deviation}
      mayBeEmpty
      onValue={(seenDeviation) => set({ seenDeviation })}
    />
  );
}

function Figures({ sought, set }: { sought: ScaleSought; set: (change: Partial<ScaleSought>) => void }) {
  const { difference, deviation, seenDeviation, from } = sought;
  // a figure that was typed over is no longer that of the study it came from
  const byHand = (value: number | null): void => {
    if (value !== null && value !== deviation) {
      // and its part can be no more than all of it
      const seen = seenDeviation === null ? null : Math.min(seenDeviation, value);
      set({ deviation: value, seenDeviation: seen, from: from === words.guess ? from : "" });
    }
  };
  return (
    <div class="dials">
      <Dial
        label={words.differenceSlider}
        low={1}
        high={40}
        value={difference}
        onValue={(value) => set({ difference: value })}
      >
        <NumberField
          id="people-difference"
          label={words.difference}
          unit={words.points}
          value={difference}
          low={0.1}
          high={100}
          onValue={(value) => value !== null && set({ difference: value })}
        />
      </Dial>
      <Dial label={words.deviationSlider} low={1} high={40} value={deviation} onValue={byHand}>
        <NumberField
          id="people-deviation"
          label={words.deviation}
          unit={words.points}
          value={deviation}
          low={0.1}
          high={100}
          onValue={byHand}
        />
      </Dial>
    </div>
  );
}
