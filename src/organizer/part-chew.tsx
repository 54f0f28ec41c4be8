import { useState } from "preact/hooks";
import { chewFlags, planThroughput } from "../design/chew-time.ts";
import { readingPattern } from "../model/grams.ts";
import type { Plan } from "../model/plan.ts";
import { chewWords as words } from "../words/en/organizer-chew.ts";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { Draft } from "./use-draft.ts";

type Chew = Plan["chew"];
const setterOf =
  ({ edit }: Draft) =>
  (change: Partial<Chew>): void =>
    edit((before) => ({ ...before, chew: { ...before.chew, ...change } }));

/** How portions are chewed and weighed, what that takes, and what carelessness can do. */
export function PartChew({ draft }: { draft: Draft }) {
  const { chew } = draft.plan;
  const set = setterOf(draft);
  return (
    <>
      <h3>{words.heading}</h3>
      <p class="fine">{words.spits}</p>
      <NumberField
        id="chew-seconds"
        label={words.seconds}
        hint={words.secondsHint}
        unit={words.unitSeconds}
        value={chew.seconds}
        low={3}
        high={60}
        whole
        onValue={(seconds) => seconds !== null && set({ seconds })}
      />
      <Choice
        id="chew-mouth"
        legend={words.mouth}
        hint={words.mouthHint}
        options={words.mouths}
        value={chew.mouth}
        onChange={(mouth) => set({ mouth })}
      />
      {chew.mouth === "rinsed-and-waited" ? (
        <NumberField
          id="chew-wait"
          label={words.wait}
          unit={words.unitSeconds}
          value={chew.waitSeconds}
          low={0}
          high={300}
          whole
          onValue={(waitSeconds) => waitSeconds !== null && set({ waitSeconds })}
        />
      ) : null}
      <NumberField
        id="chew-rinse"
        label={words.rinse}
        hint={words.rinseHint}
        unit={words.unitGrams}
        value={chew.rinseGrams}
        low={0.1}
        high={50}
        mayBeEmpty
        onValue={(rinseGrams) => set({ rinseGrams })}
      />
      <Weighing draft={draft} />
      <ChewNotes plan={draft.plan} />
    </>
  );
}

function Weighing({ draft }: { draft: Draft }) {
  const { chew } = draft.plan;
  const set = setterOf(draft);
  return (
    <>
      <BalanceStep value={chew.balanceStep} set={(balanceStep) => set({ balanceStep })} />
      <div class="row close">
        <NumberField
          id="chew-tolerance"
          label={words.tolerance}
          unit={words.unitGrams}
          value={chew.toleranceGrams}
          low={0.01}
          high={50}
          onValue={(toleranceGrams) => toleranceGrams !== null && set({ toleranceGrams })}
        />
        <NumberField
          id="chew-within"
          label={words.within}
          unit={words.unitSeconds}
          value={chew.weighWithinSeconds}
          low={10}
          high={3600}
          whole
          onValue={(weighWithinSeconds) => weighWithinSeconds !== null && set({ weighWithinSeconds })}
        />
      </div>
      <NumberField
        id="chew-matters"
        label={words.matters}
        hint={words.mattersHint}
        unit={words.unitPoints}
        value={chew.matters}
        low={0.1}
        high={100}
        mayBeEmpty
        onValue={(matters) => set({ matters })}
      />
    </>
  );
}

/** As it is written on the balance, with its decimals; what cannot be read stays on the screen and not in the plan. */
function BalanceStep({ value, set }: { value: string; set: (step: string) => void }) {
  const [typed, setTyped] = useState(value);
  const read = typed.trim().replace(",", ".");
  const ok = read === "" || readingPattern.test(read);
  return (
    <TextField
      id="chew-balance-step"
      label={words.step}
      hint={words.stepHint}
      chars={12}
      value={ok && read !== value ? value : typed}
      problem={ok ? null : words.stepWrong}
      onInput={(text) => {
        setTyped(text);
        const step = text.trim().replace(",", ".");
        if (step === "" || readingPattern.test(step)) set(step);
      }}
    />
  );
}

/** What one balance bears, and what is worth a second look. */
function ChewNotes({ plan }: { plan: Plan }) {
  const throughput = planThroughput(plan);
  const people = plan.waves.reduce((most, wave) => Math.max(most, wave.people), 0) || plan.people;
  return (
    <>
      {throughput ? <p class="after fine">{words.throughput(throughput, people)}</p> : null}
      {chewFlags(plan).map((flag) => (
        <p key={flag.what} class="note" role="status">
          {words.flag(flag)}
        </p>
      ))}
    </>
  );
}

const none = "none";

/** Which product is inert, if one is: it stands with the products. */
export function ControlField({ draft }: { draft: Draft }) {
  const { products, chew } = draft.plan;
  const set = setterOf(draft);
  const options = products.map(({ id, name }, at) => ({
    value: id,
    label: name.trim() || words.unnamed(at),
    hint: "",
  }));
  return (
    <Choice
      id="chew-control"
      legend={words.control}
      hint={words.controlHint}
      options={[{ value: none, label: words.noControl, hint: "" }, ...options]}
      value={chew.control ?? none}
      onChange={(id) => set({ control: id === none ? null : id })}
    />
  );
}
