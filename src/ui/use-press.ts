import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { type Direction, fractionAt, overhang } from "./line-mark.ts";

/** A press that strays this many CSS pixels above or below the band is called off. */
const strayPx = 80;

type Press = {
  lengthPx: number;
  direction: Direction;
  /** The mark follows: drawn only, nothing is set yet. */
  follow: (fraction: number) => void;
  /** The finger, pen or mouse was lifted: this is the mark. */
  place: (fraction: number, pointer: string) => void;
  /** Called off: everything as it was before the press. */
  restore: () => void;
};

/**
 * One pointer on the band of a line. Only the primary pointer counts; it is captured, and what it says is set when it
 * is lifted. Straying up or down, a second finger or the browser's own cancel call the press off.
 */
export function usePress(band: RefObject<HTMLElement | null>, press: Press): void {
  const latest = useRef(press);
  latest.current = press;
  useLayoutEffect(() => {
    const node = band.current;
    return node ? listen(node, latest) : undefined;
  }, [band]);
}

function listen(node: HTMLElement, latest: { current: Press }): () => void {
  let active: number | null = null;
  let last: number | null = null;
  const at = (event: PointerEvent): number => {
    const left = node.getBoundingClientRect().left + overhang;
    return fractionAt(event.clientX - left, latest.current.lengthPx, latest.current.direction);
  };
  const strayed = (event: PointerEvent): boolean => {
    const { top, bottom } = node.getBoundingClientRect();
    return event.clientY < top - strayPx || event.clientY > bottom + strayPx;
  };
  const callOff = (): void => {
    if (active === null) return;
    active = null;
    latest.current.restore();
  };
  const follow = (event: PointerEvent): void => {
    const fraction = at(event);
    if (fraction === last) return;
    last = fraction;
    latest.current.follow(fraction);
  };
  const onDown = (event: PointerEvent): void => {
    if (!event.isPrimary || event.button !== 0 || active !== null) return;
    active = event.pointerId;
    last = null;
    node.setPointerCapture?.(event.pointerId);
    follow(event);
  };
  const onMove = (event: PointerEvent): void => {
    if (event.pointerId !== active) return;
    if (strayed(event)) callOff();
    else follow(event);
  };
  const onUp = (event: PointerEvent): void => {
    if (event.pointerId !== active) return;
    if (strayed(event)) callOff();
    if (active === null) return;
    active = null;
    latest.current.place(at(event), event.pointerType || "unknown");
  };
  const onLost = (event: PointerEvent): void => {
    if (event.pointerId === active) callOff();
  };
  const onOther = (event: PointerEvent): void => {
    if (active !== null && event.pointerId !== active) callOff();
  };
  const onBand: [string, (event: PointerEvent) => void][] = [
    ["pointerdown", onDown],
    ["pointermove", onMove],
    ["pointerup", onUp],
    ["pointercancel", onLost],
    ["lostpointercapture", onLost],
  ];
  for (const [kind, on] of onBand) node.addEventListener(kind, on as EventListener);
  window.addEventListener("pointerdown", onOther, true);
  return () => {
    for (const [kind, on] of onBand) node.removeEventListener(kind, on as EventListener);
    window.removeEventListener("pointerdown", onOther, true);
  };
}
