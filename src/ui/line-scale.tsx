import type { ComponentChildren, RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { Grip, type LineWords, Nudges, type SetMark } from "./line-grip.tsx";
import { type Direction, type LineMark, offsetOf, overhang } from "./line-mark.ts";
import { useAnnouncer, useFocusKept, useMarking } from "./use-marking.ts";
import { usePress } from "./use-press.ts";
import { useWidth } from "./use-width.ts";
import "./line-scale.css";

type Props = {
  /** Length of the line in CSS pixels: never stretched, never shrunk. */
  lengthPx: number;
  low: string;
  high: string;
  /** Id of the question. */
  labelledBy: string;
  mark: LineMark | null;
  onMark: (mark: LineMark | null) => void;
  /** Milliseconds since the question appeared. */
  elapsed: () => number;
  /** Runs once after so many milliseconds; returns the way to call that off. */
  after: (ms: number, run: () => void) => () => void;
  words: LineWords;
  direction?: Direction;
  /** The mark is kept: it stays to be seen, and nothing moves it any more. */
  kept?: boolean;
};

/** Room that a line of this length needs across, in CSS pixels. */
export const roomFor = (lengthPx: number): number => lengthPx + 2 * overhang;

/**
 * A bare line to be marked: by a tap or a drag, by two buttons without dragging, or by keys. There is no start value:
 * before the first mark it is a button, since a slider without a value is read out as one that stands in the middle.
 */
export function LineScale(props: Props) {
  const { lengthPx, low, high, labelledBy, mark, words, direction = "ltr", kept = false } = props;
  const whole = useRef<HTMLDivElement>(null);
  const band = useRef<HTMLDivElement>(null);
  const stroke = useRef<HTMLSpanElement>(null);
  const say = useAnnouncer(props.after);
  const set = useMarking(props, say.announce);
  const remove = (): void => {
    props.onMark(null);
    say.announce(words.removed);
  };
  useDrawing({ band, stroke, fraction: mark?.fraction ?? null, lengthPx, direction, set });
  useFocusKept(band, mark === null);

  return (
    <div class="scale" ref={whole} dir={direction} inert={kept}>
      <Ends whole={whole} room={roomFor(lengthPx)} low={low} high={high}>
        <div class="band" ref={band} style={{ width: `${roomFor(lengthPx)}px` }}>
          <Bare lengthPx={lengthPx} />
          <span class="stroke" ref={stroke} />
          <Grip
            labelledBy={labelledBy}
            mark={mark}
            direction={direction}
            words={words}
            low={low}
            high={high}
            set={set}
            remove={remove}
            lost={() => say.announce(words.how)}
          />
        </div>
      </Ends>
      <p id="line-ends" class="unseen">
        {words.ends(low, high)}
      </p>
      <Nudges mark={mark} direction={direction} words={words} set={set} />
      <p class="unseen" aria-live="polite" ref={say.place} />
    </div>
  );
}

type Drawing = {
  band: RefObject<HTMLDivElement | null>;
  stroke: RefObject<HTMLSpanElement | null>;
  fraction: number | null;
  lengthPx: number;
  direction: Direction;
  set: SetMark;
};

/** Draws the mark where it is, and under the finger while one presses: one write to the page a move. */
function useDrawing({ band, stroke, fraction, lengthPx, direction, set }: Drawing): void {
  const draw = (at: number): void => {
    if (stroke.current) stroke.current.style.transform = `translateX(${offsetOf(at, lengthPx, direction)}px)`;
  };
  const state = (name: "empty" | "pressing" | "marked"): void => {
    if (band.current && band.current.dataset.state !== name) band.current.dataset.state = name;
  };
  const restore = (): void => {
    if (fraction !== null) draw(fraction);
    state(fraction === null ? "empty" : "marked");
  };
  useLayoutEffect(restore, [fraction, lengthPx, direction]);
  usePress(band, {
    lengthPx,
    direction,
    follow: (at) => {
      draw(at);
      state("pressing");
    },
    place: (at, pointer) => {
      set({ fraction: at, start: "pointer" }, pointer, true);
      restore(); // what was set, if anything was, is drawn in the same frame
    },
    restore,
  });
}

/** The line itself: thin, with a stroke at each end and nothing between. */
export function Bare({ lengthPx }: { lengthPx: number }) {
  return <span class="rule" style={{ width: `${lengthPx}px` }} />;
}

type EndsProps = {
  whole: { current: HTMLElement | null };
  room: number;
  low: string;
  high: string;
  children: ComponentChildren;
};

/** The end words: outside the ends where there is room for them, else below. */
function Ends({ whole, room, low, high, children }: EndsProps) {
  const width = useWidth(whole, 0);
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
  const beside = width >= room + 2 * 8 * rem;
  return (
    <div class={beside ? "ends beside" : "ends"}>
      <span class="low" aria-hidden="true">
        {low}
      </span>
      {children}
      <span class="high" aria-hidden="true">
        {high}
      </span>
    </div>
  );
}
