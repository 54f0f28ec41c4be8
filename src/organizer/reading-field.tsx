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
  /** What may be typed, and the sentences where it cannot be; grams where nothing else is said. */
  as?: { pattern: RegExp; notRead: string; stays: (stored: string) => string };
};

const grams = { pattern: readingPattern, notRead: words.notAReading, stays: words.stays };

/**
 * A mass in grams, or minutes or degrees: its field, and what is wrong with what was typed. What cannot be stays on the screen, and what was
 * stored stays stored. `enter` puts a reading into the field as if it was typed there.
 */
export function useReadingField({ id, label, stored, sentence, onReading, as = grams }: ReadingProps) {
  const [typed, setTyped] = useState(stored);
  const [from, setFrom] = useState(stored);
  const [left, setLeft] = useState(false);
  if (from !== stored) {
    // it was stored, or an undo or another device changed it
    setFrom(stored);
    setTyped(stored);
  }
  const text = typed.trim();
  const unread = text !== "" && !as.pattern.test(text);
  const wrong = !left || text === stored ? null : unread ? as.notRead : sentence;
  const enter = (reading: string): void => {
    setTyped(reading);
    setLeft(true);
    const text = reading.trim();
    if ((text === "" || as.pattern.test(text)) && text !== stored) onReading(text);
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
      {wrong} {as.stays(stored)}
    </p>
  ) : null;
  return { input, problem, enter };
}
