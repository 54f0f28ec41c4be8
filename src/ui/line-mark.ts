import type { markStarts } from "../model/ballot-event.ts";

/** A mark on a line without numbers: where it stands, and how it came to stand there. */
export type LineMark = {
  /** Place on the line: 0 at the low end, 1 at the high end. */
  fraction: number;
  /** Where the first press put it: a touch, a key that began at an end, or a digit key at a tenth. */
  start: (typeof markStarts)[number];
  /** How often it was moved after it was first placed. */
  moves: number;
  /** Milliseconds from the question's appearance to the first mark. */
  firstMs: number;
  /** How it was placed last: "touch", "mouse", "pen" or "keyboard". */
  pointer: string;
};
export type Placed = Pick<LineMark, "fraction" | "start">;
/** Which way the line runs: with "ltr" the low end stands at the left. */
export type Direction = "ltr" | "rtl";

/** The line can be pressed this many CSS pixels beyond both of its ends, so that the ends can be reached. */
export const overhang = 24;

/** The fraction at so many CSS pixels to the right of the line's left end; what lies beyond an end counts as the end. */
export function fractionAt(x: number, lengthPx: number, direction: Direction): number {
  const fromLeft = Math.min(1, Math.max(0, x / lengthPx));
  return direction === "ltr" ? fromLeft : 1 - fromLeft;
}

/** CSS pixels from the line's left end to a mark. */
export const offsetOf = (fraction: number, lengthPx: number, direction: Direction): number =>
  (direction === "ltr" ? fraction : 1 - fraction) * lengthPx;

/** Moves a mark by a share of the line towards the right of the screen (negative: the left), as far as its end. */
export function moved(fraction: number, right: number, direction: Direction): number {
  const change = direction === "ltr" ? right : -right;
  // without the dust of binary fractions, so that ten steps of a hundredth are a tenth
  return Math.min(1, Math.max(0, Math.round((fraction + change) * 1e9) / 1e9));
}

/** The first mark by a key: a digit at its tenth, Home and End at the ends, an arrow from the end it points away from. */
export function firstByKey(key: string, direction: Direction): Placed | null {
  if (/^\d$/.test(key)) return { fraction: Number(key) / 10, start: "tenth" };
  const atLeft: Placed = direction === "ltr" ? { fraction: 0, start: "low-end" } : { fraction: 1, start: "high-end" };
  const atRight: Placed = direction === "ltr" ? { fraction: 1, start: "high-end" } : { fraction: 0, start: "low-end" };
  switch (key) {
    case "Home":
    case "ArrowUp":
      return { fraction: 0, start: "low-end" };
    case "End":
    case "ArrowDown":
      return { fraction: 1, start: "high-end" };
    case "ArrowRight":
      return atLeft;
    case "ArrowLeft":
      return atRight;
    default:
      return null;
  }
}

/** Where a key takes a mark that is there; null for a key that takes it nowhere. */
export function nextByKey(key: string, fraction: number, direction: Direction): number | null {
  switch (key) {
    case "ArrowRight":
      return moved(fraction, 0.01, direction);
    case "ArrowLeft":
      return moved(fraction, -0.01, direction);
    case "ArrowUp":
      return moved(fraction, 0.01, "ltr");
    case "ArrowDown":
      return moved(fraction, -0.01, "ltr");
    case "PageUp":
      return moved(fraction, 0.1, "ltr");
    case "PageDown":
      return moved(fraction, -0.1, "ltr");
    case "Home":
      return 0;
    case "End":
      return 1;
    default:
      return null;
  }
}
