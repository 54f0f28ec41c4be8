import { createContext } from "preact";
import { useContext, useEffect, useState } from "preact/hooks";
import { planWords } from "../words/en/organizer-plan.ts";
import { describedBy, Field } from "./fields.tsx";

/** Where fields report what cannot be read, so that a page can list it at its top. Null takes a report away. */
export const FieldProblems = createContext<(id: string, problem: string | null) => void>(() => undefined);

export type NumberRule = { low: number; high: number; whole?: boolean; mayBeEmpty?: boolean };

/**
 * Reads a number as people type it: "12", "12.5", "12,5".
 * Returns the value (null for an allowed blank), or the sentence that says what is wrong.
 */
export function readNumber(
  typed: string,
  label: string,
  rule: NumberRule,
): { ok: true; value: number | null } | { ok: false; sentence: string } {
  const words = planWords.number;
  const text = typed.trim().replace(",", ".");
  if (text === "" && rule.mayBeEmpty) return { ok: true, value: null };
  if (!/^-?\d+(\.\d+)?$/.test(text)) return { ok: false, sentence: words.notANumber(label) };
  const value = Number(text);
  if (rule.whole && !Number.isInteger(value)) return { ok: false, sentence: words.whole(label) };
  if (value < rule.low || value > rule.high) return { ok: false, sentence: words.range(label, rule.low, rule.high) };
  return { ok: true, value };
}

type Props = NumberRule & {
  id: string;
  label: string;
  hint?: string;
  unit?: string;
  value: number | null;
  onValue: (value: number | null) => void;
};

/** A number with its unit. What cannot be read stays on the screen with a sentence; the last good value stays in the plan. */
export function NumberField(props: Props) {
  const { id, label, hint, unit, value, onValue } = props;
  const shown = value === null ? "" : planWords.figure(value);
  const [typed, setTyped] = useState(shown);
  const report = useContext(FieldProblems);
  const read = readNumber(typed, label, props);
  const sentence = read.ok ? null : `${read.sentence} ${planWords.number.stays(shown || planWords.number.empty)}`;
  useEffect(() => {
    // a slider, an undo or another device changed the value
    if (!read.ok || read.value !== value) setTyped(shown);
  }, [shown]);
  useEffect(() => {
    report(id, sentence);
    return () => report(id, null);
  }, [sentence]);
  return (
    <Field id={id} label={label} hint={hint} problem={sentence}>
      <span class="measured">
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          id={id}
          value={typed}
          aria-describedby={describedBy(id, hint, sentence)}
          aria-invalid={sentence ? "true" : undefined}
          onInput={(event) => {
            const text = event.currentTarget.value;
            setTyped(text);
            const now = readNumber(text, label, props);
            if (now.ok && now.value !== value) onValue(now.value);
          }}
        />
        {unit ? <span class="unit">{unit}</span> : null}
      </span>
    </Field>
  );
}
