import { useState } from "preact/hooks";
import { focusSoon } from "../ui/focus.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { TextField } from "./fields.tsx";
import { withBatch, withoutBatch } from "./ledger-edit.ts";
import { Extras } from "./ledger-extras.tsx";
import type { LedgerDraft } from "./ledger-fields.tsx";
import { StepRow } from "./ledger-step.tsx";

type Props = { hand: LedgerDraft; at: number };

/** One batch: what the balance showed at each step, and what is lost since the step before and left of the raw mass. */
export function BatchFields({ hand, at }: Props) {
  const { id, ledger, set } = hand;
  const batch = ledger.batches[at];
  if (!batch) return null;
  const process = ledger.products[batch.product] ?? "";
  const { columns } = words;
  return (
    <div class="batch">
      <table class="weighings">
        <caption>{words.batch(batch.name)}</caption>
        <thead>
          <tr>
            <th scope="col">{columns.step}</th>
            <th scope="col">{columns.grams}</th>
            <th scope="col" class="figure">
              {columns.own}
            </th>
            <th scope="col" class="figure">
              {columns.raw}
            </th>
          </tr>
        </thead>
        <tbody>
          {ledger.steps.map((name, step) => (
            <StepRow key={name} hand={hand} at={at} step={step} />
          ))}
        </tbody>
      </table>
      <details class="more">
        <summary>{words.more}</summary>
        <p class="fine">{words.moreHint}</p>
        <Extras hand={hand} at={at} />
        <BatchNames hand={hand} at={at} />
      </details>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          set(withoutBatch(ledger, at), words.removedBatch(batch.name, process));
          focusSoon(`ledger-${id}-${batch.product}-add`);
        }}
      >
        {words.removeBatch(batch.name, process)}
      </button>
    </div>
  );
}

function BatchNames({ hand: { id, ledger, set }, at }: Props) {
  const batch = ledger.batches[at];
  const [refused, setRefused] = useState<string | null>(null);
  if (!batch) return null;
  const field = (what: string): string => `ledger-${id}-${at}-${what}`;
  const change = (part: "name" | "lot" | "pair", text: string): void => {
    const next = withBatch(ledger, at, (before) => ({ ...before, [part]: text }));
    setRefused(next.refusal ? words.pairWrong : null);
    if (next.ledger) set(next.ledger);
  };
  return (
    <div class="row">
      <TextField
        id={field("name")}
        label={words.name}
        value={batch.name}
        max={60}
        onInput={(text) => change("name", text)}
      />
      <TextField
        id={field("lot")}
        label={words.lot}
        value={batch.lot}
        max={60}
        onInput={(text) => change("lot", text)}
      />
      <TextField
        id={field("pair")}
        label={words.pair}
        hint={words.pairHint}
        value={batch.pair}
        max={60}
        problem={refused}
        onInput={(text) => change("pair", text)}
      />
    </div>
  );
}
