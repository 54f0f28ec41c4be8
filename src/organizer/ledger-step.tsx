import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Refusal } from "../analysis/ledger-check.ts";
import type { Weighing } from "../model/ledger.ts";
import { focusSoon } from "../ui/focus.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { percentOf } from "../words/en/weighing.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { BalanceTake, useTakes } from "./balance-take.tsx";
import { TextField } from "./fields.tsx";
import { weighingAt, withWeighing } from "./ledger-edit.ts";
import type { LedgerDraft } from "./ledger-fields.tsx";
import { useReadingField } from "./reading-field.tsx";

type Props = { hand: LedgerDraft; at: number };

/** One weighing of a batch: its grams, typed or taken from a balance, and what they come to. */
export function StepRow({ hand, at, step }: Props & { step: number }) {
  const { id, ledger, set } = hand;
  const takes = useTakes();
  const batch = ledger.batches[at];
  const stored = weighingAt(batch, step);
  const [refused, setRefused] = useState<{ refusal: Refusal; grams: string } | null>(null);
  const change = (change: Partial<Weighing>): void => {
    const next = withWeighing(ledger, at, step, change);
    setRefused(next.refusal && { refusal: next.refusal, grams: change.grams ?? stored.grams });
    if (next.ledger) set(next.ledger);
  };
  const field = `ledger-${id}-${at}-${step}-grams`;
  const label = words.field(
    "grams",
    ledger.steps[step] ?? "",
    batch?.name ?? "",
    ledger.products[batch?.product ?? 0] ?? "",
  );
  const grams = useReadingField({
    id: field,
    label,
    stored: stored.grams,
    sentence: refused && refusedText(refused.refusal),
    onReading: (grams) => change({ grams, ...(grams === "" ? { gainReason: "" } : {}) }),
  });
  const found = hand.result?.batches[at]?.steps[step];
  const asksReason = grams.problem !== null && refused?.refusal.what === "gain" && refused.refusal.step === step;
  return (
    <>
      <tr>
        <th scope="row">{ledger.steps[step]}</th>
        <td>{grams.input}</td>
        {takes && stored.grams === "" ? (
          <td colSpan={2}>
            <BalanceTake
              id={`${field}-take`}
              field={label}
              step={ledger.balanceStep}
              onTake={(reading) => {
                grams.enter(reading);
                focusSoon(field);
              }}
            />
          </td>
        ) : (
          <>
            <td class="figure">{found?.lossPercent == null ? "–" : percentOf(-found.lossPercent)}</td>
            <td class="figure">{found?.yieldPercent == null ? "–" : percentOf(found.yieldPercent)}</td>
          </>
        )}
      </tr>
      {grams.problem === null ? null : <Across>{grams.problem}</Across>}
      {asksReason || stored.gainReason !== "" ? (
        <Across>
          <Reason
            id={`${field}-reason`}
            stored={stored.gainReason}
            onReason={(gainReason) => change({ gainReason, ...(refused ? { grams: refused.grams } : {}) })}
          />
        </Across>
      ) : null}
    </>
  );
}

/** What has to be said of the row above, over its whole width. */
export const Across = ({ children }: { children: ComponentChildren }) => (
  <tr class="across">
    <td colSpan={4}>{children}</td>
  </tr>
);

function Reason({ id, stored, onReason }: { id: string; stored: string; onReason: (reason: string) => void }) {
  const [typed, setTyped] = useState(stored);
  return (
    <div onChange={() => typed.trim() === stored || onReason(typed.trim())}>
      <TextField id={id} label={words.reason} hint={words.reasonHint} value={typed} onInput={setTyped} />
    </div>
  );
}
