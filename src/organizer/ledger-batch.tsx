import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Refusal } from "../analysis/ledger-check.ts";
import { readingPattern } from "../model/grams.ts";
import { blottings, type Weighing } from "../model/ledger.ts";
import { focusSoon } from "../ui/focus.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { percentOf } from "../words/en/weighing.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { describedBy, TextField } from "./fields.tsx";
import { weighingAt, withBatch, withoutBatch, withWeighing } from "./ledger-edit.ts";
import type { LedgerDraft } from "./ledger-fields.tsx";

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

function StepRow({ hand, at, step }: Props & { step: number }) {
  const { id, ledger, set } = hand;
  const batch = ledger.batches[at];
  const stored = weighingAt(batch, step);
  const [refused, setRefused] = useState<{ refusal: Refusal; grams: string } | null>(null);
  const change = (change: Partial<Weighing>): void => {
    const next = withWeighing(ledger, at, step, change);
    setRefused(next.refusal && { refusal: next.refusal, grams: change.grams ?? stored.grams });
    if (next.ledger) set(next.ledger);
  };
  const field = `ledger-${id}-${at}-${step}-grams`;
  const grams = useReadingField({
    id: field,
    label: words.field(
      "grams",
      ledger.steps[step] ?? "",
      batch?.name ?? "",
      ledger.products[batch?.product ?? 0] ?? "",
    ),
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
        <td class="figure">{found?.lossPercent == null ? "–" : percentOf(-found.lossPercent)}</td>
        <td class="figure">{found?.yieldPercent == null ? "–" : percentOf(found.yieldPercent)}</td>
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
const Across = ({ children }: { children: ComponentChildren }) => (
  <tr class="across">
    <td colSpan={4}>{children}</td>
  </tr>
);

type ReadingProps = {
  id: string;
  label: string;
  stored: string;
  /** Why what was typed was not stored. */
  sentence: string | null;
  onReading: (reading: string) => void;
};

/**
 * A mass in grams: its field, and what is wrong with what was typed. What cannot be stays on the screen, and what was
 * stored stays stored.
 */
function useReadingField({ id, label, stored, sentence, onReading }: ReadingProps) {
  const [typed, setTyped] = useState(stored);
  const [from, setFrom] = useState(stored);
  const [left, setLeft] = useState(false);
  if (from !== stored) {
    // it was stored, or an undo or another device changed it
    setFrom(stored);
    setTyped(stored);
  }
  const text = typed.trim();
  const unread = text !== "" && !readingPattern.test(text);
  const wrong = !left || text === stored ? null : unread ? words.notAReading : sentence;
  const input = (
    <input
      type="text"
      inputMode="decimal"
      autocomplete="off"
      class="grams"
      id={id}
      aria-label={label}
      value={typed}
      aria-describedby={describedBy(id, null, wrong)}
      aria-invalid={wrong ? "true" : undefined}
      onInput={(event) => {
        setTyped(event.currentTarget.value);
        setLeft(false);
      }}
      onChange={() => {
        setLeft(true);
        if (!unread && text !== stored) onReading(text);
      }}
    />
  );
  const problem = wrong ? (
    <p class="wrong" id={`${id}-problem`} role="alert">
      {wrong} {words.stays(stored)}
    </p>
  ) : null;
  return { input, problem };
}

function Reason({ id, stored, onReason }: { id: string; stored: string; onReason: (reason: string) => void }) {
  const [typed, setTyped] = useState(stored);
  return (
    <div onChange={() => typed.trim() === stored || onReason(typed.trim())}>
      <TextField id={id} label={words.reason} hint={words.reasonHint} value={typed} onInput={setTyped} />
    </div>
  );
}

/** What few kitchens type for each weighing: the dish, juice that was caught, whether it was blotted. */
function Extras({ hand, at }: Props) {
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
