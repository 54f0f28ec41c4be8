import { useMemo, useState } from "preact/hooks";
import { weighedConfidence } from "../analysis/finding.ts";
import { ledgerResult } from "../analysis/ledger.ts";
import { type Refusal, refusalsOf } from "../analysis/ledger-check.ts";
import type { Measure } from "../model/claim.ts";
import { readingPattern } from "../model/grams.ts";
import { emptyLedger, type Ledger, mostSteps } from "../model/ledger.ts";
import type { LedgerResult as Result } from "../model/result-ledger.ts";
import { focusSoon } from "../ui/focus.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { BalancePart } from "./balance-part.tsx";
import { changeMeasure, namesOf } from "./claim-edit.ts";
import type { ClaimStudy } from "./claim-results.ts";
import { TextField } from "./fields.tsx";
import { BatchFields } from "./ledger-batch.tsx";
import { Drawn, type SaidOfRaw, saidOfRaw } from "./ledger-drawn.tsx";
import { losesWeighings, mostOfClaim, stepsIn, withNewBatch, withSteps } from "./ledger-edit.ts";
import { LedgerFiles } from "./ledger-files.tsx";
import { LedgerResult } from "./ledger-result.tsx";
import { NumberField } from "./number-field.tsx";
import type { ClaimDraft } from "./use-claim.ts";

/** A ledger at hand: the measure's, under the claim's own names; and how to change it. */
export type LedgerDraft = {
  id: string;
  ledger: Ledger;
  /** Worked out of it; null while something in it cannot be. */
  result: Result | null;
  set: (ledger: Ledger, said?: string) => void;
};

type Props = { draft: ClaimDraft; studies: readonly ClaimStudy[]; measure: Measure };

/** Batches of the claim's two processes as they are weighed, what they come to, and a way to begin with them. */
export function WeighedBatches({ draft, studies, measure }: Props) {
  const { id, weighed } = measure;
  const set = (ledger: Ledger | null, said?: string): void =>
    draft.edit((before) => changeMeasure(before, id, { weighed: ledger }), said);
  const names = namesOf(draft.claim, { first: claimWords.claim.unnamedFirst, second: claimWords.claim.unnamedSecond });
  const add = `ledger-${id}-add`;
  if (weighed === null) {
    return (
      <p class="after-row">
        <button
          type="button"
          id={add}
          onClick={() => {
            set(withNewBatch(withNewBatch(emptyLedger(words.steps), 0), 1));
            focusSoon(`ledger-${id}-0-0-grams`);
          }}
        >
          {words.begin}
        </button>
        <span class="fine">{words.beginHint}</span>
      </p>
    );
  }
  const said = saidOfRaw(draft.claim, studies);
  return <Weighed key={id} id={id} weighed={weighed} names={names} set={set} add={add} said={said} />;
}

type WeighedProps = {
  id: string;
  weighed: Ledger;
  names: { first: string; second: string };
  set: (ledger: Ledger | null, said?: string) => void;
  /** The control that begins a ledger. */
  add: string;
  said: readonly SaidOfRaw[];
};

function Weighed({ id, weighed, names: { first, second }, set, add, said }: WeighedProps) {
  const ledger = useMemo(() => ({ ...weighed, products: [first, second] }), [weighed, first, second]);
  const refusals = useMemo(() => refusalsOf(ledger), [ledger]);
  const result = useMemo(
    () => (refusals.length > 0 ? null : ledgerResult(ledger, weighedConfidence, "")),
    [ledger, refusals],
  );
  const hand: LedgerDraft = { id, ledger, result, set };
  return (
    <fieldset class="field group ledger">
      <legend>{words.heading}</legend>
      <Broken ledger={ledger} refusal={refusals[0]} />
      {result ? <LedgerResult ledger={ledger} /> : null}
      <BalancePart />
      {ledger.products.map((name, product) => (
        <Process key={product} hand={hand} product={product} name={name} />
      ))}
      <Setting hand={hand} said={said} />
      <LedgerFiles hand={hand} />
      <button
        type="button"
        class="quiet"
        onClick={() => {
          set(null, words.removed);
          focusSoon(add);
        }}
      >
        {words.remove}
      </button>
    </fieldset>
  );
}

/** What came from elsewhere and cannot be: said before anything is worked out from it. */
function Broken({ ledger, refusal }: { ledger: Ledger; refusal: Refusal | undefined }) {
  if (!refusal) return null;
  return (
    <p class="wrong" role="alert">
      {words.broken(ledger.batches[refusal.batch]?.name ?? "", refusedText(refusal))}
    </p>
  );
}

function Process({ hand, product, name }: { hand: LedgerDraft; product: number; name: string }) {
  const { id, ledger, set } = hand;
  const own = ledger.batches.flatMap((batch, at) => (batch.product === product ? [at] : []));
  const full = ledger.batches.length >= mostOfClaim;
  const add = (): void => {
    set(withNewBatch(ledger, product));
    focusSoon(`ledger-${id}-${ledger.batches.length}-0-grams`);
  };
  return (
    <section class="process">
      <h3>{words.process(name, own.length)}</h3>
      <div class="batches">
        {own.map((at) => (
          <BatchFields key={at} hand={hand} at={at} />
        ))}
      </div>
      <p class="after-row">
        <button
          type="button"
          id={`ledger-${id}-${product}-add`}
          aria-disabled={full ? "true" : undefined}
          onClick={() => full || add()}
        >
          {words.addBatch(name)}
        </button>
        {full ? <span class="fine">{words.full(mostOfClaim)}</span> : null}
      </p>
    </section>
  );
}

function Setting({ hand, said }: { hand: LedgerDraft; said: readonly SaidOfRaw[] }) {
  const { id, ledger, set } = hand;
  return (
    <details class="more">
      <summary>{words.setting}</summary>
      <Steps id={`ledger-${id}-steps`} ledger={ledger} set={set} />
      <Balance id={`ledger-${id}-balance`} ledger={ledger} set={set} />
      <NumberField
        id={`ledger-${id}-matters`}
        label={words.matters}
        hint={words.mattersHint}
        value={ledger.matters}
        {...{ low: 0.001, high: 100, mayBeEmpty: true }}
        onValue={(matters) => set({ ...ledger, matters })}
      />
      <Drawn hand={hand} said={said} />
    </details>
  );
}

type PartProps = { id: string; ledger: Ledger; set: LedgerDraft["set"] };

function Steps({ id, ledger, set }: PartProps) {
  const shown = ledger.steps.join(", ");
  const [typed, setTyped] = useState(shown);
  const [from, setFrom] = useState(shown);
  if (from !== shown) {
    // an undo or another device changed them
    setFrom(shown);
    setTyped(shown);
  }
  return (
    <div
      onChange={() => {
        const steps = stepsIn(typed);
        if (!steps || steps.join(", ") === shown) return;
        const next = withSteps(ledger, steps);
        set(next, losesWeighings(ledger, next) ? words.removedSteps : undefined);
      }}
    >
      <TextField
        id={id}
        label={words.stepsLabel}
        hint={words.stepsHint}
        value={typed}
        problem={stepsIn(typed) ? null : words.stepsWrong(mostSteps)}
        onInput={setTyped}
      />
    </div>
  );
}

function Balance({ id, ledger, set }: PartProps) {
  const [typed, setTyped] = useState(ledger.balanceStep);
  const text = typed.trim();
  const good = text === "" || (readingPattern.test(text) && Number(text) > 0);
  const shown = good && text !== ledger.balanceStep ? ledger.balanceStep : typed;
  return (
    <TextField
      id={id}
      label={words.balance}
      hint={words.balanceHint}
      chars={12}
      value={shown}
      problem={good ? null : words.notAReading}
      onInput={(value) => {
        setTyped(value);
        const next = value.trim();
        if (next === "" || (readingPattern.test(next) && Number(next) > 0)) set({ ...ledger, balanceStep: next });
      }}
    />
  );
}
