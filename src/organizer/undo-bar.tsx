import { useEffect, useRef, useState } from "preact/hooks";
import { undoWords as words } from "../words/en/undo.ts";
import type { Kept } from "./use-kept.ts";

type Props = Pick<Kept<unknown>, "undo" | "redo"> & {
  /** Where the focus goes when the button that had it is gone. */
  then: () => void;
};

/** What the last change was, and the way back and forward again: by button, and by Ctrl or Cmd with Z. */
export function UndoBar({ undo, redo, then }: Props) {
  const [told, setTold] = useState("");
  const back = (): void => {
    if (!undo) return;
    undo.go();
    setTold(words.undone(undo.text));
  };
  const forward = (): void => {
    if (!redo) return;
    redo.go();
    setTold(words.redone(redo.text));
  };
  useKeys(back, forward);
  const pressed = useRef<"undo" | "redo" | null>(null);
  useEffect(() => {
    // the button that was pressed went away with the last step on its side, and the focus with it
    if ((pressed.current === "undo" && !undo) || (pressed.current === "redo" && !redo)) then();
    pressed.current = null;
  }, [undo === null, redo === null]);
  const press = (which: "undo" | "redo", go: () => void) => () => {
    pressed.current = which;
    go();
  };
  return (
    <>
      <p class="unseen" role="status">
        {told}
      </p>
      {undo || redo ? (
        <section class="undo-bar" aria-label={words.bar}>
          {undo ? (
            <button type="button" class="quiet" onClick={press("undo", back)}>
              {words.undo(undo.text)}
            </button>
          ) : null}
          {redo ? (
            <button type="button" class="quiet" onClick={press("redo", forward)}>
              {words.redo(redo.text)}
            </button>
          ) : null}
        </section>
      ) : null}
    </>
  );
}

const typedInto = new Set(["text", "search", "number", "email", "tel", "url", "password", "time", "date"]);

/** Does what has the focus take back its own typing? */
const ownUndo = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && typedInto.has(target.type));

function useKeys(back: () => void, forward: () => void): void {
  const latest = useRef({ back, forward });
  latest.current = { back, forward };
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const { key, shiftKey, altKey, target } = event;
      if (!(event.ctrlKey || event.metaKey) || altKey || event.defaultPrevented || ownUndo(target)) return;
      const letter = key.toLowerCase();
      if (letter !== "z" && !(letter === "y" && !shiftKey)) return;
      event.preventDefault();
      if (letter === "y" || shiftKey) latest.current.forward();
      else latest.current.back();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}
