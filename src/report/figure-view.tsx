import { useRef } from "preact/hooks";
import { useWidth } from "../ui/use-width.ts";
import { reader } from "../words/en/reader.ts";
import type { Figure } from "./figures.tsx";

/** Widest useful picture; paper and saved files get one width, whatever the screen. */
const widest = 660;
export const onPaper = { width: 480, stack: 160 };

/** A picture at the width of the page, with its caption and a table that says the same. */
export function FigureView({ figure }: { figure: Figure }) {
  const frame = useRef<HTMLElement>(null);
  const width = Math.min(widest, useWidth(frame, widest));
  const ids = { caption: `${figure.id}-caption`, table: figure.tableId };
  return (
    <figure ref={frame} class="chance-figure">
      <div class="screen-only">{figure.draw(width, ids)}</div>
      <div class="paper-only">{figure.draw(onPaper.width, undefined, onPaper.stack)}</div>
      <figcaption id={ids.caption}>{figure.caption(width)}</figcaption>
      {figure.table && (
        <details id={ids.table} class="quiet screen-only">
          <summary>{reader.pictures.asTable}</summary>
          {figure.table}
        </details>
      )}
    </figure>
  );
}
