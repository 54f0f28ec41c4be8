import { useMemo } from "preact/hooks";
import type { WordTable } from "../analysis/describe.ts";
import { describeLedger } from "../analysis/describe-ledger.ts";
import { weighedConfidence } from "../analysis/finding.ts";
import { ledgerResult } from "../analysis/ledger.ts";
import type { Ledger } from "../model/ledger.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";

/** What the masses come to, in the sentences that the terminal prints. */
export function LedgerResult({ ledger }: { ledger: Ledger }) {
  const { found, tables, notShown } = useMemo(() => {
    // a batch that waits for its first weighing is nothing to warn of
    const batches = ledger.batches.filter(({ weighings }) => weighings.some((each) => each !== null));
    return describeLedger(ledgerResult({ ...ledger, batches }, weighedConfidence, ""));
  }, [ledger]);
  const some = ledger.batches.some(({ weighings }) => weighings.some((each) => each !== null));
  return (
    <div class="masses">
      <h3>{words.result}</h3>
      <p class="verdict">{found[0]}</p>
      {found.slice(1).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {some ? (
        <>
          <details class="more">
            <summary>{words.numbers}</summary>
            {tables.slice(0, -1).map((table) => (
              <Figures key={table.caption} table={table} />
            ))}
          </details>
          <details class="more">
            <summary>{words.notShown}</summary>
            <ul>
              {[tables.at(-1)?.note ?? "", ...notShown].filter(Boolean).map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </details>
        </>
      ) : null}
    </div>
  );
}

function Figures({ table: { caption, columns, rows, note } }: { table: WordTable }) {
  return (
    <table class="masses-table">
      <caption>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((cells) => (
          <tr key={cells.join()}>
            {cells.map((cell, at) =>
              at === 0 ? (
                <th key={columns[at]} scope="row">
                  {cell}
                </th>
              ) : (
                <td key={columns[at]}>{cell}</td>
              ),
            )}
          </tr>
        ))}
      </tbody>
      {note ? (
        <tfoot>
          <tr>
            <td colSpan={columns.length} class="fine">
              {note}
            </td>
          </tr>
        </tfoot>
      ) : null}
    </table>
  );
}
