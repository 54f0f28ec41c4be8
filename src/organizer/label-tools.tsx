import { useState } from "preact/hooks";
import * as z from "zod/mini";
import { useReading } from "../ui/use-store.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import { useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { barPlace, type LabelGrid, labelGrid, overrun, usualGrid } from "./labels.ts";
import { NumberField } from "./number-field.tsx";
import { ProblemNote } from "./problem-note.tsx";
import type { PaperSize } from "./use-print.ts";

const words = paperWords.labels;

export type LabelChoice = {
  grid: LabelGrid;
  setGrid: (grid: LabelGrid) => void;
  /** Place of the first label on a sheet that was begun, from 1. */
  first: number;
  setFirst: (first: number) => void;
  thrown: unknown;
};

/** The label sheet of this browser for a paper size, kept for the next study, and where the first label goes. */
export function useLabels(size: PaperSize): LabelChoice {
  const { store } = useLead();
  const [typed, setTyped] = useState<Partial<Record<PaperSize, LabelGrid>>>({});
  const [first, setFirst] = useState(1);
  const [thrown, setThrown] = useState<unknown>(null);
  const name = `label-sheet ${size}`;
  const stored = useReading(() => store.meta(name).then((kept) => kept ?? null), watchOf(store), [name]);
  return {
    grid: typed[size] ?? storedGrid(stored) ?? usualGrid[size],
    setGrid: (grid) => {
      setTyped((before) => ({ ...before, [size]: grid }));
      store.setMeta(name, grid).catch(setThrown);
    },
    first,
    setFirst,
    thrown,
  };
}

/** What is kept here may be of an older version of the app: then the usual sheet is used. */
function storedGrid(stored: unknown): LabelGrid | null {
  const parsed = z.safeParse(labelGrid, stored);
  return parsed.success ? parsed.data : null;
}

/** The fields of the label sheet. What does not fit the paper is said, and nothing is drawn until it does. */
export function LabelTools({ size, choice }: { size: PaperSize; choice: LabelChoice }) {
  const { grid, first, setGrid, setFirst, thrown } = choice;
  const over = overrun(grid, size);
  return (
    <>
      <p class="fine">
        {words.measures(grid.columns, grid.rows, grid.widthMm, grid.heightMm)} {words.scale}
      </p>
      <NumberField
        id="labels-first"
        label={words.start}
        hint={words.startHint}
        value={first}
        low={1}
        high={grid.columns * grid.rows}
        whole
        onValue={(value) => value !== null && setFirst(value)}
      />
      <details>
        <summary>{words.other}</summary>
        <p class="fine">{words.otherNote}</p>
        <div class="row">
          {fields.map(({ field, low, high, whole }) => (
            <NumberField
              key={`${size} ${field}`}
              id={`labels-${field}`}
              label={words.fields[field]}
              {...(whole ? {} : { unit: words.millimeter })}
              value={grid[field]}
              low={low}
              high={high}
              whole={whole}
              onValue={(value) => value !== null && setGrid({ ...grid, [field]: value })}
            />
          ))}
        </div>
        <p class="after">
          <button type="button" onClick={() => setGrid(usualGrid[size])}>
            {words.usual}
          </button>
        </p>
      </details>
      {over ? (
        <p class="wrong" role="alert">
          {words.over[over.way](over.reach, over.room)}
        </p>
      ) : null}
      {over === null && barPlace(grid, size) === null ? <p class="note">{words.noBar}</p> : null}
      <ProblemNote thrown={thrown} />
    </>
  );
}

type Field = keyof LabelGrid;
const whole = (field: Field) => ({ field, low: 1, high: 20, whole: true });
const measure = (field: Field, low: number, high: number) => ({ field, low, high, whole: false });
const fields: { field: Field; low: number; high: number; whole: boolean }[] = [
  whole("columns"),
  whole("rows"),
  measure("widthMm", 25, 210),
  measure("heightMm", 15, 290),
  measure("columnGapMm", 0, 30),
  measure("rowGapMm", 0, 30),
  measure("leftMm", 0, 60),
  measure("topMm", 0, 60),
  measure("rightwardMm", -10, 10),
  measure("downwardMm", -10, 10),
];
