import { useState } from "preact/hooks";
import { inEachSession } from "../design/seating.ts";
import { newId } from "../model/id.ts";
import type { Wave } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { Orders } from "./part-orders.tsx";
import { changeWave, readBatches, readCodes, withoutWave, withWave } from "./plan-waves.ts";
import { RawFields } from "./raw-fields.tsx";
import { TimeAtTable } from "./time-at-table.tsx";
import type { Draft } from "./use-draft.ts";

const words = planWords.serving;

/** Part 5: who is served when, from which pots, and by whom. */
export function PartServing({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const inWaves = plan.waves.reduce((sum, wave) => sum + wave.people, 0);
  return (
    <>
      {plan.products.length === 0 ? <p class="fine">{words.needsProducts}</p> : null}
      {plan.waves.map((wave, at) => (
        <WaveFields key={wave.id} draft={draft} wave={wave} at={at} />
      ))}
      <p class="after-row">
        <button
          type="button"
          id="serving-add"
          onClick={() => {
            edit((before) => withWave(before, newId()));
            focusSoon(`wave-${plan.waves.length}-starts`);
          }}
        >
          {words.add}
        </button>
        {plan.waves.length > 0 ? (
          <span class="fine">
            {words.count(inWaves, inEachSession(plan) ? plan.people * plan.repeats : plan.people)}
          </span>
        ) : null}
      </p>
      {plan.blank ? null : <RawFields draft={draft} />}
      <TimeAtTable draft={draft} />
      <Orders plan={plan} />
      <TextField
        id="serving-place"
        label={words.place}
        hint={words.placeHint}
        value={plan.place}
        onInput={(place) => edit((before) => ({ ...before, place }))}
      />
      <Choice
        id="serving-server"
        legend={words.server}
        options={words.serverOptions}
        value={plan.serverKnowsKey === null ? null : plan.serverKnowsKey ? "yes" : "no"}
        onChange={(answer) => edit((before) => ({ ...before, serverKnowsKey: answer === "yes" }))}
      />
      <AvoidCodes draft={draft} />
    </>
  );
}

function WaveFields({ draft, wave, at }: { draft: Draft; wave: Wave; at: number }) {
  const { plan, edit } = draft;
  const sessions = inEachSession(plan) || wave.session.trim() !== "" || plan.waves.length > 1;
  return (
    <fieldset class="group">
      <legend class="label">{words.wave(at)}</legend>
      <div class={sessions || plan.products.length > 2 ? "wave-row many" : "wave-row"}>
        <TextField
          id={`wave-${at}-starts`}
          label={words.starts}
          value={wave.starts}
          onInput={(starts) => edit((before) => changeWave(before, wave.id, { starts }))}
        />
        {sessions ? (
          <TextField
            id={`wave-${at}-session`}
            label={choiceWords.session}
            value={wave.session}
            onInput={(session) => edit((before) => changeWave(before, wave.id, { session }))}
          />
        ) : null}
        <NumberField
          id={`wave-${at}-people`}
          label={words.people}
          value={wave.people}
          low={0}
          high={5000}
          whole
          onValue={(people) => people !== null && edit((before) => changeWave(before, wave.id, { people }))}
        />
        <div class="batches">
          {plan.products.map(({ id, name }, place) => (
            <Batches
              key={id}
              id={`wave-${at}-batch-${place}`}
              label={words.batches(name)}
              batches={wave.batches[id] ?? []}
              onBatches={(batches) =>
                edit((before) => {
                  const now = before.waves.find((each) => each.id === wave.id) ?? wave;
                  return changeWave(before, wave.id, { batches: { ...now.batches, [id]: batches } });
                })
              }
            />
          ))}
        </div>
      </div>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          edit((before) => withoutWave(before, wave.id), words.removed(at));
          focusSoon("serving-add");
        }}
      >
        {words.remove(at)}
      </button>
    </fieldset>
  );
}

type BatchesProps = {
  id: string;
  label: string;
  batches: string[];
  onBatches: (batches: string[]) => void;
};

/** Names with commas between. What is typed stays as typed while it says the same as the plan. */
function Batches({ id, label, batches, onBatches }: BatchesProps) {
  const [typed, setTyped] = useState(batches.join(", "));
  const same = readBatches(typed).join("\n") === batches.join("\n");
  return (
    <TextField
      id={id}
      label={label}
      value={same ? typed : batches.join(", ")}
      onInput={(text) => {
        setTyped(text);
        onBatches(readBatches(text));
      }}
    />
  );
}

function AvoidCodes({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const [typed, setTyped] = useState(plan.avoidCodes.join(" "));
  const { bad } = readCodes(typed);
  return (
    <TextField
      id="serving-avoid"
      label={words.avoid}
      hint={words.avoidHint}
      value={typed}
      max={1500}
      problem={bad === null ? null : words.badCodes(bad)}
      onInput={(text) => {
        setTyped(text);
        const { codes } = readCodes(text);
        edit((before) => ({ ...before, avoidCodes: codes.slice(0, 300) }));
      }}
    />
  );
}
