import { useState } from "preact/hooks";
import type { Refusal } from "../analysis/ledger-check.ts";
import { blottings } from "../model/ledger.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { weighingAt, withWeighing } from "./ledger-edit.ts";
import type { LedgerDraft } from "./ledger-fields.tsx";
import { Across } from "./ledger-step.tsx";
import { type ReadingProps, useReadingField } from "./reading-field.tsx";

type Props = { hand: LedgerDraft; at: number };

/** What few kitchens type for each weighing: the dish, juice that was caught, whether it was blotted. */
export function Extras({ hand, at }: Props) {
  const { id, ledger } = hand;
  const batch = ledger.batches[at];
  if (!batch) return null;
  return (
    <table class="weighings">
      <thead>
        <tr>
          <th scope="col">{words.columns.step}</th>
          <th scope="col">{words.columns.tare}</th>
          <th scope="col">{words.columns.drip}</th>
          <th scope="col">{words.columns.blotted}</th>
        </tr>
      </thead>
      <tbody>
        {ledger.steps.map((name, step) => (
          <ExtraRow key={name} hand={hand} at={at} step={step} field={`ledger-${id}-${at}-${step}`} />
        ))}
      </tbody>
    </table>
  );
}

function ExtraRow({ hand: { ledger, set }, at, step, field }: Props & { step: number; field: string }) {
  const [refused, setRefused] = useState<{ refusal: Refusal; what: "tare" | "drip" } | null>(null);
  const batch = ledger.batches[at];
  const stored = weighingAt(batch, step);
  const label = (what: "tare" | "drip" | "blotted"): string =>
    words.field(what, ledger.steps[step] ?? "", batch?.name ?? "", ledger.products[batch?.product ?? 0] ?? "");
  const propsOf = (what: "tare" | "drip"): ReadingProps => ({
    id: `${field}-${what}`,
    label: label(what),
    stored: stored[what],
    sentence: refused?.what === what ? refusedText(refused.refusal) : null,
    onReading: (reading) => {
      const next = withWeighing(ledger, at, step, { [what]: reading });
      setRefused(next.refusal && { refusal: next.refusal, what });
      if (next.ledger) set(next.ledger);
    },
  });
  const tare = useReadingField(propsOf("tare"));
  const drip = useReadingField(propsOf("drip"));
  return (
    <>
      <tr>
        <th scope="row">{ledger.steps[step]}</th>
        <td>{tare.input}</td>
        <td>{step === 0 ? null : drip.input}</td>
        <td>
          <select
            aria-label={label("blotted")}
            value={stored.blotted}
            onChange={(event) => {
              const blotted = blottings.find((each) => each === event.currentTarget.value) ?? "unknown";
              const next = withWeighing(ledger, at, step, { blotted });
              if (next.ledger) set(next.ledger);
            }}
          >
            {blottings.map((value) => (
              <option key={value} value={value}>
                {words.blottings[value]}
              </option>
            ))}
          </select>
        </td>
      </tr>
      {tare.problem === null && drip.problem === null ? null : (
        <Across>
          {tare.problem}
          {drip.problem}
        </Across>
      )}
    </>
  );
}
