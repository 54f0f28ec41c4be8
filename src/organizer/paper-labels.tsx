import type { Body } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { paperWords } from "../words/en/organizer-papers.ts";
import { barPlace, type LabelGrid, labelSheets, overrun, sheetMm } from "./labels.ts";
import { MeasureBar } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = paperWords.labels;

type Props = { lock: Body<"study-locked">; size: PaperSize; grid: LabelGrid; first: number };

/** A label for each cup: the code, large, and small its tray and place. Nothing where the labels do not fit the sheet. */
export function Labels({ lock, size, grid, first }: Props) {
  if (overrun(grid, size)) return null;
  const bar = barPlace(grid, size);
  return (
    <>
      {labelSheets(lock.packet.trays, grid, first, lock.packet.reference).map((cells, sheet) => (
        <article
          key={cells.find((cell) => cell?.place)?.code ?? sheet}
          class={`paper labels ${size}`}
          style={{ height: `${sheetMm[size].height - spareMm}mm` }}
        >
          {bar ? (
            <p class={`label-marks ${bar}`}>
              <MeasureBar />
              <span>{paperWords.seal(lock.packet.commitment)}</span>
            </p>
          ) : null}
          <div class="grid" style={gridStyle(grid)}>
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

/** A sheet is printed a hair lower than it is: the page is a whole number of points, and a blank one would follow. */
const spareMm = 0.4;
/** Under this height the code is set smaller, and no edge is kept free above and below. */
const lowMm = 20;

function gridStyle(grid: LabelGrid): Record<string, string> {
  const { columns, rows, widthMm, heightMm } = grid;
  return {
    left: `${grid.leftMm + grid.rightwardMm}mm`,
    top: `${grid.topMm + grid.downwardMm}mm`,
    gridTemplateColumns: `repeat(${columns}, ${widthMm}mm)`,
    gridTemplateRows: `repeat(${rows}, ${heightMm}mm)`,
    columnGap: `${grid.columnGapMm}mm`,
    rowGap: `${grid.rowGapMm}mm`,
    "--code-size": heightMm < lowMm ? "16pt" : "24pt",
    "--edge": heightMm < lowMm ? "1mm" : heightMm < 30 ? "2mm" : "4mm",
  };
}
