import { reader } from "../words/en/reader.ts";
import type { Opened } from "./opened-study.ts";
import { batchRows, limitsBeside } from "./temperature-table.ts";

const words = reader.temperatures;
type Column = "core" | "held" | "left" | "served";

/** What the kitchen read of each batch and when; nothing where nobody wrote anything down. */
export function Temperatures({ record }: { record: Opened["record"] }) {
  const rows = batchRows(record);
  if (rows.length === 0) return null;
  const columns = (["core", "held", "left", "served"] as const).filter((column) =>
    rows.some((row) => row[column] !== ""),
  );
  return (
    <div class="part">
      <h3>{words.heading}</h3>
      <table class="figures">
        <thead>
          <tr>
            <th scope="col" class="number">
              {words.wave}
            </th>
            <th scope="col">{words.batch}</th>
            {columns.map((column) => (
              <th scope="col" key={column}>
                {words[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.wave} ${row.batch}`}>
              <th scope="row" class="number" data-head={words.wave}>
                {row.wave}
              </th>
              <td data-head={words.batch}>{row.batch}</td>
              {columns.map((column: Column) => (
                <td key={column} data-head={words[column]}>
                  {row[column] || words.none}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p class="fine">{[...limitsBeside(record.temperatures), words.note].join(" ")}</p>
    </div>
  );
}
