import { useState } from "preact/hooks";
import { readingPattern } from "../model/grams.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { describedBy } from "./fields.tsx";

export type ReadingProps = {
  id: string;
  label: string;
  stored: string;
  /** Why what was typed was not stored. */
  sentence: string | null;
  onReading: (reading: string) => void;
};

/**
 * A mass in grams: its field, and what is wrong with what was typed. What cannot be stays on the screen, and what was
 * stored stays stored. `enter` puts a reading into the field as if it was typed there.
 */
export function useReadingField({ id, label, stored, sentence, onReading }: ReadingProps) {
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
  const enter = (reading: string): void => {
    setTyped(reading);
    setLeft(true);
    const text = reading.trim();
    if ((text === "" || readingPattern.test(text)) && text !== stored) onReading(text);
  };
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
      onChange={() => enter(typed)}
    />
  );
  const problem = wrong ? (
    <p class="wrong" id={`${id}-problem`} role="alert">
      {wrong} {words.stays(stored)}
    </p>
  ) : null;
  return { input, problem, enter };
}
