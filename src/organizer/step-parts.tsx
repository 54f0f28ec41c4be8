import { useState } from "preact/hooks";
import { dayWords } from "../words/en/organizer-day.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { TextField } from "./fields.tsx";
import { studyAddress } from "./route.ts";

/** The way back from a step to the day. */
export function BackToDay({ id }: { id: string }) {
  return (
    <p class="fine under">
      <a href={studyAddress(id)}>{dayWords.back}</a>
    </p>
  );
}

/** The note that goes into the report with a ruling. */
export function NoteField({ id, value, onInput }: { id: string; value: string; onInput: (note: string) => void }) {
  return (
    <TextField id={id} label={lockWords.gate.note} hint={lockWords.gate.noteHint} value={value} onInput={onInput} />
  );
}

/** The state of doing one thing that writes to the log: whether it runs, and what went wrong. */
export function useDoing(): { busy: boolean; thrown: unknown; run: (work: () => Promise<void>) => void } {
  const [busy, setBusy] = useState(false);
  const [thrown, setThrown] = useState<unknown>(null);
  return {
    busy,
    thrown,
    run: (work) => {
      if (busy) return;
      setBusy(true);
      setThrown(null);
      work().then(
        () => setBusy(false),
        (failure: unknown) => {
          setThrown(failure);
          setBusy(false);
        },
      );
    },
  };
}
