import { useState } from "preact/hooks";
import { lockWords } from "../words/en/organizer-lock.ts";
import { TextField } from "./fields.tsx";

type Props = {
  /** The word to type, in capitals. */
  word: string;
  action: string;
  working: string;
  busy: boolean;
  /** What hinders, beside the word; null when nothing does. */
  hindrance?: string | null;
  go: () => void;
};

/**
 * The way to do what cannot be undone: a typed word, then the button. The button stays reachable and says what is
 * missing when it is pressed too early.
 */
export function WordGate({ word, action, working, busy, hindrance = null, go }: Props) {
  const [typed, setTyped] = useState("");
  const [said, setSaid] = useState<string | null>(null);
  const ready = typed.trim().toUpperCase() === word && hindrance === null;
  return (
    <form
      class="gate"
      onSubmit={(event) => {
        event.preventDefault();
        if (busy) return;
        if (!ready) {
          setSaid(hindrance ?? lockWords.gate.missing(word));
          return;
        }
        setSaid(null);
        go();
      }}
    >
      <TextField
        id={`gate-${word.toLowerCase()}`}
        label={lockWords.gate.type(word)}
        value={typed}
        chars={12}
        onInput={setTyped}
        problem={said}
      />
      <button type="submit" class="next" aria-disabled={ready && !busy ? undefined : "true"}>
        {busy ? working : action}
      </button>
    </form>
  );
}
