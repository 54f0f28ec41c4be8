import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import type { BlindPacket } from "../model/packet.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { blankWords } from "../words/en/organizer-blank.ts";
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
      {lock.plan.blank ? <p>{blankWords.kitchen}</p> : null}
      {lock.plan.waves.map((wave, at) => (
        <section key={wave.id} class="sheet-part">
          <h2>{paperWords.wave(at + 1, wave.starts)}</h2>
          {rows
            .filter((row) => row.wave === at + 1)
            .map((row) => (
              <Batch key={`${row.letter} ${row.batch}`} row={row} mark={lock.packet.reference} />
            ))}
        </section>
      ))}
      <p class="small-print">{paperWords.byProduct.order}</p>
    </FlowSheet>
  );
}

function Batch({ row, mark }: { row: BatchRow; mark: BlindPacket["reference"] }) {
  const words = paperWords.byProduct;
  return (
    <div class="batch">
      <p class="batch-head">
        <strong class="product-letter">{row.letter}</strong> {row.product}, {words.batch(row.batch)}
        {row.pot === null ? "" : words.pot(row.pot)}: {words.cups(row.cups.length + row.references.length)}
        {words.portion(row.grams)}
      </p>
      {row.cups.length + row.references.length === 0 ? <p>{words.none}</p> : null}
      {mark && row.references.length > 0 ? (
        <>
          <p>{words.references(mark)}</p>
          <ul class="cups">
            {row.references.map((tray) => (
              <li key={tray}>
                <span class="box" aria-hidden="true" />
                <span class="code">{mark}</span>
                <span class="small-print">{words.tray(trayLabel(tray))}</span>
              </li>
            ))}
          </ul>
          {row.cups.length > 0 ? <p>{words.coded}</p> : null}
        </>
      ) : null}
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
  const mark = lock.packet.reference;
  return (
    <FlowSheet lock={lock} name={paperNames["kitchen-by-tray"]} size={size} black={paperWords.blackBar}>
      {lock.plan.blank ? <p>{blankWords.kitchen}</p> : null}
      <p class="small-print">
        {words.letters(lock.plan.products.map(({ name }) => name))}
        {mark ? ` ${words.referenceNote(mark)}` : ""}
      </p>
      {lock.plan.waves.map((wave, at) => (
        <table key={wave.id} class={places + (mark ? 1 : 0) > 4 ? "by-tray many" : "by-tray"}>
          <caption>{paperWords.wave(at + 1, wave.starts)}</caption>
          <thead>
            <tr>
              <th scope="col">{words.tray}</th>
              {mark ? <th scope="col">{words.reference(mark)}</th> : null}
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
                <TrayLine key={row.tray} row={row} mark={mark} />
              ))}
          </tbody>
        </table>
      ))}
    </FlowSheet>
  );
}

function TrayLine({ row, mark }: { row: TrayRow; mark: BlindPacket["reference"] }) {
  return (
    <tr>
      <th scope="row">
        {trayLabel(row.tray)}
        {row.spare ? <span class="small-print"> {paperWords.spare}</span> : null}
      </th>
      {row.reference && mark ? (
        <td>
          <span class="cup">
            <strong class="product-letter">{row.reference.letter}</strong>
            <span>
              <span class="code">{mark}</span>
              <span class="small-print"> {row.reference.batch}</span>
            </span>
          </span>
        </td>
      ) : null}
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
