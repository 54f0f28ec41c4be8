import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { countedOf, type PortionStage } from "../log/portions.ts";
import { portionOffBy } from "../model/portion-check.ts";
import { readTrayLabel, trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { portionRefusedText, weighWords as words } from "../words/en/organizer-weigh.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { BalanceTake } from "./balance-take.tsx";
import { describedBy, Field, TextField } from "./fields.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import { entryOf, readGrams, type Target, type WeighPlan, type WeighRow } from "./weigh.ts";

/** The id of the field for the mass: where the focus goes after each entry. */
export const readingField = "weigh-grams";

type Props = {
  id: string;
  row: WeighRow;
  stage: PortionStage;
  plan: WeighPlan;
  /** Where the focus goes when it appears: into its field, once somebody enters one reading after the other. */
  focus: boolean;
  /** For how many seconds its closed cup has waited by now; null: it does not wait, or is not timed. */
  waited: () => number | null;
  /** A reading is about to be kept; it is. */
  onKeep: () => void;
  onKept: () => void;
};

/** One reading: which cup, what the balance shows, and whether it can be. What is typed stays until it is kept. */
export function WeighForm({ id, row, stage, plan, focus, waited, onKeep, onKept }: Props) {
  const lead = useLead();
  const doing = useDoing();
  const rinsed = stage === "after" && (plan.rinse !== "" || (countedOf(row.after)?.rinse ?? "") !== "");
  const [grams, setGrams] = useState("");
  const [rinse, setRinse] = useState(countedOf(row.after)?.rinse || plan.rinse);
  const [wrong, setWrong] = useState<string | null>(null);
  const [wrongRinse, setWrongRinse] = useState<string | null>(null);
  /** Said once: then it is kept. */
  const [warned, setWarned] = useState<string | null>(null);

  useEffect(() => {
    if (focus) focusSoon(readingField, "center");
  }, []);

  /** Keeps what was typed, or says why not. */
  const submit = () => {
    const read = readGrams(grams);
    const water = !rinsed || rinse.trim() === "" ? "" : readGrams(rinse);
    setWrongRinse(water === null ? words.notAReading : null);
    if (read === null || water === null) return setWrong(read === null ? words.notAReading : null);
    const { body, refusal } = entryOf(row, stage, { grams: read, rinse: water, waited: waited() }, plan);
    if (refusal) return setWrong(portionRefusedText(refusal));
    setWrong(null);
    const off = stage === "portion" ? portionOffBy(read, plan.planned) : 0;
    if (off && warned !== read) return setWarned(read);
    onKeep();
    doing.run(async () => {
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "portion-weighed", body });
      // a second press before the page knows of the first finds nothing to keep
      setGrams("");
      onKept();
    });
  };
  const warning = warned !== null && warned === readGrams(grams) ? warned : null;
  return (
    <form
      class="weigh"
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <h2>{words.target(trayLabel(row.tray), row.code)}</h2>
      <Standing row={row} stage={stage} />
      {stage === "after" ? <Waited seconds={waited()} within={plan.within} /> : null}
      <div class="weigh-fields">
        <GramsField
          id={readingField}
          label={words.stages[stage]}
          hint={hintOf(stage, plan)}
          value={grams}
          problem={wrong}
          onInput={(text) => {
            setGrams(text);
            setWrong(null);
          }}
        >
          <BalanceTake
            id="weigh-take"
            field={words.stages[stage]}
            step={plan.balanceStep}
            onTake={(reading) => {
              setGrams(reading);
              setWrong(null);
              focusSoon(readingField);
            }}
          />
        </GramsField>
        {rinsed ? (
          <GramsField
            id="weigh-rinse"
            label={words.rinse}
            hint={words.rinseHint}
            value={rinse}
            problem={wrongRinse}
            onInput={setRinse}
          />
        ) : null}
      </div>
      {warning === null ? null : (
        <p class="wrong" role="alert">
          {offText(warning, plan.planned)}
        </p>
      )}
      <ProblemNote thrown={doing.thrown} />
      <p class="after-row">
        <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
          {warning === null ? words.keep : words.keepAllTheSame(warning)}
        </button>
      </p>
    </form>
  );
}

const hintOf = (stage: PortionStage, { planned }: WeighPlan): string =>
  stage === "portion" && planned.grams !== null
    ? `${words.hints.portion} ${words.planned(planned.grams, planned.toleranceGrams)}`
    : words.hints[stage];

/** What stands there already. */
function Standing({ row, stage }: Pick<Props, "row" | "stage">) {
  const readings = row[stage].map(({ grams }) => grams);
  const [one = ""] = readings;
  if (readings.length === 0) return null;
  return <p class="fine">{readings.length > 1 ? words.contested(readings) : words.replaces(one)}</p>;
}

/** How long the cup has waited, in whole minutes, and once it is longer than planned. It interrupts nobody. */
function Waited({ seconds, within }: { seconds: number | null; within: number }) {
  if (seconds === null) return null;
  return <p class="fine">{seconds > within ? words.waitedTooLong(within) : words.waited(Math.floor(seconds / 60))}</p>;
}

type GramsProps = {
  id: string;
  label: string;
  hint: string;
  value: string;
  problem: string | null;
  onInput: (text: string) => void;
  /** Another way to fill it, beside it. */
  children?: ComponentChildren;
};

function GramsField({ id, label, hint, value, problem, onInput, children }: GramsProps) {
  return (
    <Field id={id} label={label} hint={hint} problem={problem}>
      <span class="measured">
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          class="balance"
          id={id}
          value={value}
          aria-describedby={describedBy(id, hint, problem)}
          aria-invalid={problem ? "true" : undefined}
          onInput={(event) => onInput(event.currentTarget.value)}
        />
        <span class="unit">{words.unit}</span>
        {children}
      </span>
    </Field>
  );
}

/** Goes to a tray by the number on its card; a digit that was mistyped finds none. */
export function OtherTray({ find, onFound }: { find: (tray: number) => Target | null; onFound: (at: Target) => void }) {
  const [text, setText] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const go = () => {
    const tray = readTrayLabel(text);
    const found = tray === null ? null : find(tray);
    if (!found) return setWrong(words.noTray(text.trim()));
    setText("");
    setWrong(null);
    onFound(found);
  };
  return (
    <form
      class="other-tray"
      onSubmit={(event) => {
        event.preventDefault();
        go();
      }}
    >
      <TextField
        id="weigh-tray"
        label={words.otherTray}
        hint={words.otherTrayHint}
        value={text}
        max={12}
        chars={12}
        problem={wrong}
        onInput={(next) => {
          setText(next);
          setWrong(null);
        }}
      />
      <button type="submit">{words.go}</button>
    </form>
  );
}

/** What is said of a portion outside of its tolerance. */
function offText(reading: string, planned: WeighPlan["planned"]): string {
  const by = portionOffBy(reading, planned) ?? 0;
  return words.off(reading, by, planned.toleranceGrams, planned.grams !== null && by > planned.grams);
}
