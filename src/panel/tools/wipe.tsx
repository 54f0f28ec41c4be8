import { useEffect, useRef, useState } from "preact/hooks";
import { panelTools } from "../../words/en/panel-tools.ts";
import type { Clock } from "../clock.ts";

const { wipe: words } = panelTools;
const holdMs = 2000;
const presses = 3;
/** A finger that holds stays where it is; a cloth does not. */
const strayPx = 24;

/** A cover for wiping the screen: no touch does anything, but for a button that is held, or pressed thrice by keys. */
export function Wipe({ clock, leave }: { clock: Clock; leave: () => void }) {
  const cover = useRef<HTMLElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const [said, setSaid] = useState<string | null>(null);
  useEffect(() => button.current?.focus(), []);
  useEffect(() => {
    const node = cover.current;
    if (!node) return;
    // neither scrolling, nor zooming, nor menus
    const quiet = (event: Event): void => event.preventDefault();
    const kinds = ["touchstart", "touchmove", "contextmenu", "wheel", "selectstart"];
    for (const kind of kinds) node.addEventListener(kind, quiet, { passive: false });
    return () => {
      for (const kind of kinds) node.removeEventListener(kind, quiet);
    };
  }, []);
  useHold(button, clock, leave, (holding) => setSaid(holding ? words.holding : null));
  const onKeyDown = usePresses(clock, leave, (left) => setSaid(words.more(left)));
  return (
    <main class="wipe" ref={cover}>
      <h1>{words.title}</h1>
      <p class="lead-in">{words.lead}</p>
      <button type="button" ref={button} onKeyDown={onKeyDown}>
        {words.hold}
      </button>
      <p class="fine">{words.keys}</p>
      <p role="status">{said}</p>
    </main>
  );
}

/** Enter or Space, pressed so often within three seconds each; a key that is held down counts once. */
function usePresses(clock: Clock, done: () => void, more: (left: number) => void): (event: KeyboardEvent) => void {
  const pressed = useRef({ count: 0, at: 0 });
  return (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    if (event.repeat) return;
    const now = clock.monotonic();
    const { count, at } = pressed.current;
    pressed.current = { count: count > 0 && now - at < 3000 ? count + 1 : 1, at: now };
    if (pressed.current.count >= presses) done();
    else more(presses - pressed.current.count);
  };
}

type Ref<T> = { current: T | null };

/** One pointer held still on the button for two seconds; a second one, or straying, calls it off. */
function useHold(button: Ref<HTMLElement>, clock: Clock, done: () => void, holding: (is: boolean) => void): void {
  const latest = useRef({ done, holding });
  latest.current = { done, holding };
  useEffect(() => {
    const node = button.current;
    if (!node) return;
    let held: { id: number; x: number; y: number; cancel: () => void } | null = null;
    const callOff = (): void => {
      if (!held) return;
      held.cancel();
      held = null;
      latest.current.holding(false);
    };
    const onDown = (event: PointerEvent): void => {
      callOff();
      if (!event.isPrimary || event.button !== 0 || !node.contains(event.target as Node)) return;
      const cancel = clock.after(holdMs, () => latest.current.done());
      held = { id: event.pointerId, x: event.clientX, y: event.clientY, cancel };
      latest.current.holding(true);
    };
    const onMove = (event: PointerEvent): void => {
      if (held && event.pointerId === held.id && Math.hypot(event.clientX - held.x, event.clientY - held.y) > strayPx)
        callOff();
    };
    const on: [string, (event: PointerEvent) => void][] = [
      ["pointerdown", onDown],
      ["pointermove", onMove],
      ["pointerup", callOff],
      ["pointercancel", callOff],
    ];
    for (const [kind, listener] of on) window.addEventListener(kind, listener as EventListener, true);
    return () => {
      held?.cancel();
      for (const [kind, listener] of on) window.removeEventListener(kind, listener as EventListener, true);
    };
  }, [button, clock]);
}
