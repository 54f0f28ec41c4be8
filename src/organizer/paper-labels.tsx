import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Body } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { paperWords } from "../words/en/organizer-papers.ts";
import { labelGrid, labelSheets } from "./labels.ts";
import { NumberField } from "./number-field.tsx";
import { MeasureBar } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

/** Where the first label goes on a sheet that was begun, and the field that says so. */
export function useFirstLabel(size: PaperSize): [number, ComponentChildren] {
  const [first, setFirst] = useState(1);
  const words = paperWords.labels;
  const { columns, rows } = labelGrid[size];
  return [
    first,
    <div key="first-label">
      <p class="fine">
        {words.measures[size]} {words.scale}
      </p>
      <NumberField
        id="labels-first"
        label={words.start}
        hint={words.startHint}
        value={first}
        low={1}
        high={columns * rows}
        whole
        onValue={(value) => value !== null && setFirst(value)}
      />
    </div>,
  ];
}

/** A label for each cup: the code, large, and small its tray and place. */
export function Labels({ lock, size, first }: { lock: Body<"study-locked">; size: PaperSize; first: number }) {
  const words = paperWords.labels;
  return (
    <>
      {labelSheets(lock.packet.trays, size, first).map((cells, sheet) => (
        <article key={cells.find((cell) => cell)?.code ?? sheet} class={`paper labels ${size}`}>
          <p class="label-marks">
            <MeasureBar />
            <span>{paperWords.seal(lock.packet.commitment)}</span>
          </p>
          <div class="grid">
            {cells.map((cell, at) => (
              <div key={cell ? `${cell.tray} ${cell.place}` : `empty ${at}`} class="cell">
                {cell ? (
                  <>
                    <strong>
                      <CodeDigits code={cell.code} />
                    </strong>
                    <span>{words.place(trayLabel(cell.tray), cell.place)}</span>
                  </>
                ) : null}
              </div>
            ))}
          </div>
        </article>
      ))}
    </>
  );
}
