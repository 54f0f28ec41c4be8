import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/**
 * The width an element has on the screen, in whole CSS pixels, measured again whenever it changes.
 * `before` stands in until the first measurement, and where nothing is laid out.
 */
export function useWidth(element: RefObject<HTMLElement | null>, before: number): number {
  const [width, setWidth] = useState(before);
  useLayoutEffect(() => {
    const node = element.current;
    if (!node) return;
    const measure = (): void => {
      const now = Math.floor(node.getBoundingClientRect().width);
      if (now > 0) setWidth(now);
    };
    measure();
    if (typeof ResizeObserver === "undefined") return;
    // in the next frame: a change within the observer's own would be reported as an error
    const observer = new ResizeObserver(() => requestAnimationFrame(measure));
    observer.observe(node);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
