import { type Direction, firstByKey, type LineMark, moved, nextByKey, type Placed } from "./line-mark.ts";

/** What the line says; no number is ever among it. */
export type LineWords = {
  /** Said after the question while there is no mark. */
  none: string;
  /** For whoever presses the line without saying where. */
  how: string;
  removed: string;
  ends: (low: string, high: string) => string;
  /** Where a mark stands, in tenths of the way from the low end. */
  place: (tenths: number, low: string, high: string) => string;
  left: string;
  right: string;
};

/** Sets a mark. `pointer`: how it was made, null for "as the last one"; `aloud`: nothing else reads it out. */
export type SetMark = (placed: Placed, pointer: string | null, aloud: boolean) => void;

type GripProps = {
  labelledBy: string;
  mark: LineMark | null;
  direction: Direction;
  words: LineWords;
  low: string;
  high: string;
  set: SetMark;
  remove: () => void;
  /** Pressed by something that says no place: a key, or an aid that presses buttons. */
  lost: () => void;
};

/** What holds the focus: a button as long as there is no mark, then a slider. It covers the whole band. */
export function Grip({ labelledBy, mark, direction, words, low, high, set, remove, lost }: GripProps) {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { key } = event;
    if (mark === null) {
      const first = firstByKey(key, direction);
      if (!first) return;
      set(first, "keyboard", true);
    } else if (key === "Delete") remove();
    else {
      const to = nextByKey(key, mark.fraction, direction);
      if (to === null) return;
      // read out by the slider itself
      if (to !== mark.fraction) set({ ...mark, fraction: to }, "keyboard", false);
    }
    event.preventDefault();
  };
  if (mark === null) {
    const pressed = (event: MouseEvent): void => {
      if (event.detail === 0) lost();
    };
    return (
      <button
        type="button"
        class="grip"
        aria-labelledby={`${labelledBy} line-none`}
        aria-describedby="line-ends"
        onClick={pressed}
        onKeyDown={onKeyDown}
      >
        <span id="line-none" class="unseen">
          {words.none}
        </span>
      </button>
    );
  }
  return (
    <div
      class="grip"
      role="slider"
      tabIndex={0}
      aria-labelledby={labelledBy}
      aria-describedby="line-ends"
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(mark.fraction * 100)}
      aria-valuetext={placeIn(words, mark.fraction, low, high)}
      onKeyDown={onKeyDown}
    />
  );
}

export const placeIn = (words: LineWords, fraction: number, low: string, high: string): string =>
  words.place(Math.round(fraction * 10), low, high);

type NudgesProps = { mark: LineMark | null; direction: Direction; words: LineWords; set: SetMark };

/** The way to move a mark without dragging: two buttons, a two-hundredth of the line each. They come with the mark. */
export function Nudges({ mark, direction, words, set }: NudgesProps) {
  const nudge = (right: number) => (): void => {
    if (!mark) return;
    const fraction = moved(mark.fraction, right, direction);
    if (fraction !== mark.fraction) set({ ...mark, fraction }, null, true);
  };
  return (
    <div class="nudges">
      {mark ? (
        <>
          <button type="button" onClick={nudge(-1 / 200)}>
            {words.left}
          </button>
          <button type="button" onClick={nudge(1 / 200)}>
            {words.right}
          </button>
        </>
      ) : null}
    </div>
  );
}
