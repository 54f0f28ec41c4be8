import { useState } from "preact/hooks";
import type { Refusal } from "../analysis/ledger-check.ts";
import { blottings, celsiusPattern, minutesPattern, type Weighing } from "../model/ledger.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { weighingAt, withWeighing } from "./ledger-edit.ts";
import type { LedgerDraft } from "./ledger-fields.tsx";
import { Across } from "./ledger-step.tsx";
import { type ReadingProps, useReadingField } from "./reading-field.tsx";

type Props = { hand: LedgerDraft; at: number };

/**
 * What few kitchens type for each weighing: the dish, juice that was caught, whether it was blotted; below them liquid
 * that was added, minutes and degrees. Two rows a step, so that all fit on a phone.
 */
export function Extras({ hand, at }: Props) {
  const { id, ledger } = hand;
  const { columns } = words;
  if (!ledger.batches[at]) return null;
  return (
    <table class="weighings extras">
      <thead>
        <tr class="first">
          <th scope="col" rowSpan={2}>
            {columns.step}
          </th>
          <th scope="col">{columns.tare}</th>
          <th scope="col">{columns.drip}</th>
          <th scope="col">{columns.blotted}</th>
        </tr>
        <tr>
          <th scope="col">{columns.added}</th>
          <th scope="col">{columns.minutes}</th>
          <th scope="col">{columns.celsius}</th>
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

type What = "tare" | "drip" | "added" | "minutes" | "celsius";
type RowProps = Props & { step: number; field: string };

const kinds: Partial<Record<What, NonNullable<ReadingProps["as"]>>> = {
  minutes: { pattern: minutesPattern, ...words.minutes },
  celsius: { pattern: celsiusPattern, ...words.celsius },
};

/** Fields of one weighing beside its grams; what is refused of one stays on the screen under the row. */
function useExtraFields({ hand: { ledger, set }, at, step, field }: RowProps) {
  const [refused, setRefused] = useState<{ refusal: Refusal; what: What } | null>(null);
  const batch = ledger.batches[at];
  const stored = weighingAt(batch, step);
  const label = (what: What | "blotted"): string =>
    words.field(what, ledger.steps[step] ?? "", batch?.name ?? "", ledger.products[batch?.product ?? 0] ?? "");
  const change = (change: Partial<Weighing>): Refusal | null => {
    const next = withWeighing(ledger, at, step, change);
    if (next.ledger) set(next.ledger);
    return next.refusal;
  };
  const propsOf = (what: What): ReadingProps => ({
    id: `${field}-${what}`,
    label: label(what),
    stored: stored[what],
    sentence: refused?.what === what ? refusedText(refused.refusal) : null,
    onReading: (reading) => {
      const refusal = change({ [what]: reading });
      setRefused(refusal && { refusal, what });
    },
    ...(kinds[what] ? { as: kinds[what] } : {}),
  });
  return {
    stored,
    ...{ tare: useReadingField(propsOf("tare")), drip: useReadingField(propsOf("drip")) },
    ...{ added: useReadingField(propsOf("added")), minutes: useReadingField(propsOf("minutes")) },
    celsius: useReadingField(propsOf("celsius")),
    blotted: { label: label("blotted"), value: stored.blotted, change },
  };
}

function ExtraRow(props: RowProps) {
  const { stored, tare, drip, added, minutes, celsius, blotted } = useExtraFields(props);
  const { hand, step } = props;
  const problems = [tare, drip, added, minutes, celsius].flatMap(({ problem }) => problem ?? []);
  // before the first weighing nothing is caught or added, and there is no heat; what stands there once steps were taken
  // away can be emptied
  const shows = (what: "drip" | "added" | "minutes"): boolean => step > 0 || stored[what] !== "";
  return (
    <>
      <tr class="first">
        <th scope="row" rowSpan={2}>
          {hand.ledger.steps[step]}
        </th>
        <td>{tare.input}</td>
        <td>{shows("drip") ? drip.input : null}</td>
        <td>
          <select
            aria-label={blotted.label}
            value={blotted.value}
            onChange={(event) =>
              blotted.change({ blotted: blottings.find((each) => each === event.currentTarget.value) ?? "unknown" })
            }
          >
            {blottings.map((value) => (
              <option key={value} value={value}>
                {words.blottings[value]}
              </option>
            ))}
          </select>
        </td>
      </tr>
      <tr>
        <td>{shows("added") ? added.input : null}</td>
        <td>{shows("minutes") ? minutes.input : null}</td>
        <td>{celsius.input}</td>
      </tr>
      {problems.length === 0 ? null : <Across>{problems}</Across>}
    </>
  );
}
