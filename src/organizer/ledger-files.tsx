import { useState } from "preact/hooks";
import { saveText } from "../ui/save.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { CsvFiles } from "./csv-files.tsx";
import type { LedgerDraft } from "./ledger-fields.tsx";

/** Far more than the longest ledger; a larger file is something else. */
const mostBytes = 2_000_000;

/** Weighings from a CSV file, and to one. What is wrong with a file is said here, and nothing of it is taken. */
export function LedgerFiles({ hand: { id, ledger, set } }: { hand: LedgerDraft }) {
  const [wrong, setWrong] = useState("");
  const take = async (file: File): Promise<void> => {
    const text = file.size > mostBytes ? null : await file.text().catch(() => null);
    try {
      if (text === null) return setWrong(words.unreadable);
      // fetched only now: few pages read or write a table
      const { ledgerFrom } = await import("./ledger-table.ts");
      const next = ledgerFrom(ledger, text, file.name);
      setWrong("");
      set(next, words.took(next.batches.length));
    } catch (thrown) {
      setWrong(`${sentenceOf(thrown)} ${words.nothingTaken}`);
    }
  };
  const save = async (): Promise<void> => {
    const { ledgerCsv } = await import("./ledger-table.ts");
    saveText("weighings.csv", "text/csv", ledgerCsv(ledger));
  };
  return <CsvFiles id={`ledger-${id}-file`} heading={null} open said="" {...{ words, take, save, wrong }} />;
}
