import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { type LineWords, placeIn, type SetMark } from "./line-grip.tsx";
import type { LineMark } from "./line-mark.ts";

type Marking = {
  mark: LineMark | null;
  onMark: (mark: LineMark | null) => void;
  elapsed: () => number;
  words: LineWords;
  low: string;
  high: string;
  kept?: boolean;
};

/** Makes marks out of places: the first with its start and its time, later ones as moves of it. */
export function useMarking(
  { mark, onMark, elapsed, words, low, high, kept = false }: Marking,
  announce: (text: string) => void,
): SetMark {
  const before = useRef({ firstMs: 0, moves: -1 });
  if (mark) before.current = { firstMs: mark.firstMs, moves: mark.moves };
  return ({ fraction, start }, pointer, aloud) => {
    if (kept) return;
    const { firstMs, moves } = before.current;
    onMark({
      fraction,
      start: mark ? mark.start : start,
      moves: moves + 1,
      firstMs: moves < 0 ? elapsed() : firstMs,
      pointer: pointer ?? mark?.pointer ?? "unknown",
    });
    if (aloud) announce(placeIn(words, fraction, low, high));
  };
}

/** Says something politely, at most once in half a second; what comes meanwhile is said at its end, the last of it. */
export function useAnnouncer(after: (ms: number, run: () => void) => () => void) {
  const place = useRef<HTMLParagraphElement>(null);
  const state = useRef<{ waiting: string | null; cancel: (() => void) | null }>({ waiting: null, cancel: null });
  useEffect(() => () => state.current.cancel?.(), []);
  const announce = (text: string): void => {
    const now = state.current;
    if (now.cancel) {
      now.waiting = text;
      return;
    }
    if (place.current) place.current.textContent = text;
    now.cancel = after(500, () => {
      now.cancel = null;
      const { waiting } = now;
      now.waiting = null;
      if (waiting !== null) announce(waiting);
    });
  };
  return { place, announce };
}

/** When the button becomes a slider, or the slider a button again, the focus stays on the line if it was there. */
export function useFocusKept(band: { current: HTMLElement | null }, empty: boolean): void {
  const had = useRef(false);
  const drawn = useRef(empty);
  // before the old element goes
  had.current = band.current?.contains(document.activeElement) ?? false;
  useLayoutEffect(() => {
    if (drawn.current !== empty && had.current) band.current?.querySelector<HTMLElement>(".grip")?.focus();
    drawn.current = empty;
  }, [empty, band]);
}
