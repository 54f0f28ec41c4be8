import { useRef, useState } from "preact/hooks";

type Props = {
  /** Of the input. */
  id: string;
  /** Null: it stands under somebody else's. */
  heading: string | null;
  words: { take: string; takeHint: string; save: string };
  /** May a file be taken? */
  open: boolean;
  take: (file: File) => Promise<void>;
  save: () => Promise<void>;
  /** What became of the last file; and why one was not taken. */
  said: string;
  wrong: string;
};

/** A table from a CSV file, and to one. */
export function CsvFiles({ id, heading, words, open, take, save, said, wrong }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const [busy, setBusy] = useState(false);
  const parts = (
    <>
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
          id={id}
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
    </>
  );
  if (heading === null) return parts;
  return (
    <section>
      <h2>{heading}</h2>
      {parts}
    </section>
  );
}
