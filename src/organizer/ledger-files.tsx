import { useRef, useState } from "preact/hooks";
import { refusalsOf } from "../analysis/ledger-check.ts";
import { ledgerCsv } from "../archive/ledger-csv.ts";
import { readLedger } from "../archive/ledger-rows.ts";
import type { Ledger } from "../model/ledger.ts";
import { problem } from "../model/problem.ts";
import { saveText } from "../ui/save.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { mostOfClaim } from "./ledger-edit.ts";
import type { LedgerDraft } from "./ledger-fields.tsx";

/** Far more than the longest ledger; a larger file is something else. */
const mostBytes = 2_000_000;

/** Weighings from a CSV file, and to one. What is wrong with a file is said here, and nothing of it is taken. */
export function LedgerFiles({ hand: { id, ledger, set } }: { hand: LedgerDraft }) {
  const input = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState("");
  const take = async (file: File): Promise<void> => {
    const text = file.size > mostBytes ? null : await file.text().catch(() => null);
    try {
      if (text === null) return setWrong(words.unreadable);
      const next = ledgerFrom(ledger, text, file.name);
      setWrong("");
      set(next, words.took(next.batches.length));
    } catch (thrown) {
      setWrong(`${sentenceOf(thrown)} ${words.nothingTaken}`);
    }
  };
  return (
    <>
      <p class="after-row">
        <button type="button" onClick={() => input.current?.click()}>
          {words.take}
        </button>
        <button type="button" class="quiet" onClick={() => saveText("weighings.csv", "text/csv", ledgerCsv(ledger))}>
          {words.save}
        </button>
        <input
          ref={input}
          type="file"
          accept=".csv,text/csv"
          aria-label={words.take}
          id={`ledger-${id}-file`}
          hidden
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            event.currentTarget.value = ""; // the same file, corrected, can be chosen again
            if (file) void take(file);
          }}
        />
      </p>
      <p class="fine">{words.takeHint}</p>
      {wrong ? (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      ) : null}
    </>
  );
}

/**
 * The ledger with the weighings of a file in place of its own. A product of the file goes by its name where it is one
 * of the claim's, else by its place.
 * Throws   Problem of `readLedger`; "csv/impossible-weighing" with the line; "csv/ledger-too-large"
 */
export function ledgerFrom(ledger: Ledger, text: string, path: string): Ledger {
  const { ledger: read, lineOf } = readLedger(text, path);
  const { products, steps, batches } = read;
  const most = ledger.products.length;
  if (products.length > most) throw problem("csv/ledger-too-large", { path, line: 1, column: "product", most });
  if (batches.length > mostOfClaim) {
    throw problem("csv/ledger-too-large", { path, line: 1, column: "batch", most: mostOfClaim });
  }
  const turned =
    products[0] === ledger.products[1] || (products[1] !== undefined && products[1] === ledger.products[0]);
  const next = {
    ...ledger,
    steps,
    batches: batches.map((batch) => ({ ...batch, product: turned ? 1 - batch.product : batch.product })),
  };
  const [refusal] = refusalsOf(next);
  if (!refusal) return next;
  const line = lineOf(refusal.batch, refusal.step);
  throw problem("csv/impossible-weighing", { path, line, because: refusedText(refusal) });
}
