import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { type Lead, useLead } from "./app-context.ts";
import { DraftKeeper } from "./draft-keeper.ts";

const delayMs = 800;

/** A document as the log has it: its value, and the event that says so; no event while nobody wrote any. */
export type Stored<T> = { event: string | null; value: T };

export type Kept<T> = {
  value: T;
  /** Changes the value; `undoText` says what that took away, and offers the way back. */
  edit: (change: (value: T) => T, undoText?: string) => void;
  /** Writes what is pending at once. */
  flush: () => Promise<void>;
  /** What the last removal took away, and the way back. */
  undo: { text: string; back: () => void } | null;
};

/**
 * A document at hand, kept as events while it is typed. A version from another device replaces it only while nothing
 * of this page is pending.
 *
 * Takes    stored: the version that counts; save: writes the next one over `base`, and gives its event's id
 */
export function useKept<T>(stored: Stored<T>, save: (base: string | null, value: T) => Promise<string>): Kept<T> {
  const lead = useLead();
  const [value, setValue] = useState(stored.value);
  const [undo, setUndo] = useState<{ text: string; value: T } | null>(null);
  const latest = useRef(value);
  const keep = useKeeper(lead, stored.event, save);

  const set = useCallback((next: T) => {
    latest.current = next;
    setValue(next);
    keep.change(next);
  }, []);
  const edit = useCallback<Kept<T>["edit"]>((change, undoText) => {
    setUndo(undoText === undefined ? null : { text: undoText, value: latest.current });
    set(change(latest.current));
  }, []);

  useEffect(() => {
    if (keep.dirty || stored.event === null || stored.event === keep.base) return;
    keep.rebase(stored.event);
    latest.current = stored.value;
    setValue(stored.value);
  }, [stored.event]);
  useFlushOnLeave(lead, keep);

  return {
    value,
    edit,
    flush: () => keep.flush(),
    undo: undo && {
      text: undo.text,
      back: () => {
        set(undo.value);
        setUndo(null);
      },
    },
  };
}

/** The keeper of this page: made once; `save` is the one of the latest drawing. */
function useKeeper<T>(
  lead: Lead,
  base: string | null,
  save: (base: string | null, value: T) => Promise<string>,
): DraftKeeper<T> {
  const latest = useRef(save);
  latest.current = save;
  const keeper = useRef<DraftKeeper<T> | null>(null);
  keeper.current ??= new DraftKeeper<T>({
    base,
    delayMs,
    onState: lead.setKeep,
    save: (before, value) => latest.current(before, value),
  });
  return keeper.current;
}

/** Writes what is pending when the page is left or put away. */
function useFlushOnLeave<T>(lead: Lead, keep: DraftKeeper<T>): void {
  useEffect(() => {
    const leave = (): void => void keep.flush();
    const hidden = (): void => {
      if (document.visibilityState === "hidden") leave();
    };
    window.addEventListener("pagehide", leave);
    document.addEventListener("visibilitychange", hidden);
    return () => {
      window.removeEventListener("pagehide", leave);
      document.removeEventListener("visibilitychange", hidden);
      leave();
      lead.setKeep(null);
    };
  }, []);
}
