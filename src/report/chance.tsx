import type { RefObject } from "preact";
import { useRef } from "preact/hooks";
import { type ChanceFigures, dotLayout } from "../ui/dot-layout.ts";
import { ChanceDots, ChanceTable, type ChanceWords } from "../ui/dot-picture.tsx";
import { useWidth } from "../ui/use-width.ts";
import { reader } from "../words/en/reader.ts";

/** Widest useful picture, and the one that paper and the saved file get. */
const widest = 660;
const onPaper = { width: 480, stack: 160 };

type Props = {
  figures: ChanceFigures;
  words: ChanceWords & { caption: string };
  /** Holds the drawing that is printed and saved: it has one width, whatever the screen. */
  picture: RefObject<HTMLDivElement | null>;
};

/** The picture of chance at the width of the page, with its caption and a table that says the same. */
export function Chance({ figures, words, picture }: Props) {
  const frame = useRef<HTMLElement>(null);
  const width = Math.min(widest, useWidth(frame, widest));
  const [column] = dotLayout(figures, width).columns;
  const counts = column ? column.last - column.first + 1 : 1;
  return (
    <figure ref={frame} class="chance-figure">
      <div class="screen-only">
        <ChanceDots figures={figures} width={width} words={words} caption="chance-caption" table="chance-table" />
      </div>
      <div class="paper-only" ref={picture}>
        <ChanceDots figures={figures} {...onPaper} words={words} />
      </div>
      <figcaption id="chance-caption">
        {words.caption} {counts > 1 && reader.picture.joined(counts)}
      </figcaption>
      <details id="chance-table" class="quiet screen-only">
        <summary>{reader.picture.asTable}</summary>
        <ChanceTable figures={figures} words={words} heads={reader.picture} />
      </details>
    </figure>
  );
}
