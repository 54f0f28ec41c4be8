import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { type BatchRow, rowsByBatch, rowsByTray, type TrayRow } from "./kitchen.ts";
import { FlowSheet } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

type Props = { lock: Body<"study-locked">; opened: OpenedKey; size: PaperSize };

/** Which codes are filled from which pot, wave by wave. */
export function KitchenByProduct({ lock, opened, size }: Props) {
  const rows = rowsByBatch(opened.key, lock);
  return (
    <FlowSheet lock={lock} name={paperNames["kitchen-by-product"]} size={size} black={paperWords.blackBar}>
      {lock.plan.waves.map((wave, at) => (
        <section key={wave.id} class="sheet-part">
          <h2>{paperWords.wave(at + 1, wave.starts)}</h2>
          {rows
            .filter((row) => row.wave === at + 1)
            .map((row) => (
              <Batch key={`${row.letter} ${row.batch}`} row={row} />
            ))}
        </section>
      ))}
      <p class="small-print">{paperWords.byProduct.order}</p>
    </FlowSheet>
  );
}

function Batch({ row }: { row: BatchRow }) {
  const words = paperWords.byProduct;
  return (
    <div class="batch">
      <p class="batch-head">
        <strong class="product-letter">{row.letter}</strong> {row.product}, {words.batch(row.batch)}:{" "}
        {words.cups(row.cups.length)}
        {words.portion(row.grams)}
      </p>
      {row.cups.length === 0 ? <p>{words.none}</p> : null}
      <ul class="cups">
        {row.cups.map(({ tray, code }) => (
          <li key={`${tray} ${code}`}>
            <span class="box" aria-hidden="true" />
            <CodeDigits code={code} />
            <span class="small-print">{words.tray(trayLabel(tray))}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Which cup stands where on each tray, with boxes for whoever fills and whoever checks. */
export function KitchenByTray({ lock, opened, size }: Props) {
  const words = paperWords.byTray;
  const rows = rowsByTray(opened.key, lock);
  const places = Math.max(...rows.map((row) => row.cups.length));
  return (
    <FlowSheet lock={lock} name={paperNames["kitchen-by-tray"]} size={size} black={paperWords.blackBar}>
      <p class="small-print">{words.letters(lock.plan.products.map(({ name }) => name))}</p>
      {lock.plan.waves.map((wave, at) => (
        <table key={wave.id} class={places > 4 ? "by-tray many" : "by-tray"}>
          <caption>{paperWords.wave(at + 1, wave.starts)}</caption>
          <thead>
            <tr>
              <th scope="col">{words.tray}</th>
              {Array.from({ length: places }, (_, place) => (
                <th key={words.place(place + 1)} scope="col">
                  {words.place(place + 1)}
                </th>
              ))}
              <th scope="col">{words.filler}</th>
              <th scope="col">{words.checker}</th>
            </tr>
          </thead>
          <tbody>
            {rows
              .filter((row) => row.wave === at + 1)
              .map((row) => (
                <TrayLine key={row.tray} row={row} />
              ))}
          </tbody>
        </table>
      ))}
    </FlowSheet>
  );
}

function TrayLine({ row }: { row: TrayRow }) {
  return (
    <tr>
      <th scope="row">
        {trayLabel(row.tray)}
        {row.spare ? <span class="small-print"> {paperWords.spare}</span> : null}
      </th>
      {row.cups.map(({ place, code, letter, batch }) => (
        <td key={place}>
          <span class="cup">
            <strong class="product-letter">{letter}</strong>
            <span>
              <CodeDigits code={code} />
              <span class="small-print"> {batch}</span>
            </span>
          </span>
        </td>
      ))}
      <td>
        <span class="box wide-box" />
      </td>
      <td>
        <span class="box wide-box" />
      </td>
    </tr>
  );
}
