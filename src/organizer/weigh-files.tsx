import { useRef, useState } from "preact/hooks";
import { saveText } from "../ui/save.ts";
import { weighWords as words } from "../words/en/organizer-weigh.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { appendEvent, useLead } from "./app-context.ts";
import type { WeighPlan, WeighRow } from "./weigh.ts";

/** Far more than the largest study weighs; a larger file is something else. */
const mostBytes = 2_000_000;

type Props = { id: string; rows: readonly WeighRow[]; plan: WeighPlan; open: boolean };

/** Masses from a CSV file, and to one. A file with anything wrong in it is not taken at all. */
export function WeighFiles({ id, rows, plan, open }: Props) {
  const lead = useLead();
  const input = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState("");
  const [said, setSaid] = useState("");
  const [busy, setBusy] = useState(false);
  const take = async (file: File): Promise<void> => {
    setSaid("");
    setWrong("");
    let done = 0;
    let of = 0;
    try {
      const text = file.size > mostBytes ? null : await file.text().catch(() => null);
      if (text === null) return setWrong(`${words.unreadable} ${words.nothingTaken}`);
      // fetched only now: few who weigh read or write a table
      const { entriesFrom } = await import("./weigh-table.ts");
      const { bodies, same } = entriesFrom(rows, plan, text, file.name);
      of = bodies.length;
      for (const body of bodies) {
        await appendEvent(lead, { stream: { kind: "study", id }, kind: "portion-weighed", body });
        done += 1;
      }
      setSaid(words.took(done, same));
    } catch (thrown) {
      setWrong(`${sentenceOf(thrown)} ${done === 0 ? words.nothingTaken : words.stopped(done, of)}`);
    }
  };
  const save = async (): Promise<void> => {
    const { weighingsFile } = await import("./weigh-table.ts");
    saveText(words.fileName, "text/csv", weighingsFile(rows));
  };
  return (
    <section>
      <h2>{words.files}</h2>
      <p class="after-row">
        {open ? (
          <button
            type="button"
            aria-disabled={busy ? "true" : undefined}
            onClick={() => busy || input.current?.click()}
          >
            {words.take}
          </button>
        ) : null}
        <button type="button" class="quiet" onClick={() => void save()}>
          {words.save}
        </button>
        <input
          ref={input}
          type="file"
          accept=".csv,text/csv"
          aria-label={words.take}
          id="weigh-file"
          hidden
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            event.currentTarget.value = ""; // the same file, corrected, can be chosen again
            if (!file) return;
            setBusy(true);
            void take(file).finally(() => setBusy(false));
          }}
        />
      </p>
      {open ? <p class="fine">{words.takeHint}</p> : null}
      {said ? (
        <p class="note" role="status">
          {said}
        </p>
      ) : null}
      {wrong ? (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      ) : null}
    </section>
  );
}
