import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { type Lead, useLead } from "./app-context.ts";
import type { Difference } from "./differences.ts";
import { DraftKeeper } from "./draft-keeper.ts";
import { type History, noHistory, recorded, type Step, sealed, stepBack, stepForward } from "./history.ts";

const delayMs = 800;
/** As many versions as one event may name. */
const mostMerged = 50;

/**
 * A document as the log has it: its value, and the event that says so; no event while nobody wrote any. `others`:
 * events of versions that were written without knowing of it.
 */
export type Stored<T> = { event: string | null; value: T; others: readonly string[] };

/** One step of the history: what it changed, and the way there. */
export type Way = { text: string; go: () => void };

export type Kept<T> = {
  value: T;
  /** Changes the value; `said` names what that took away. */
  edit: (change: (value: T) => T, said?: string) => void;
  /** Writes what is pending at once; the next change is a step of its own. */
  flush: () => Promise<void>;
  undo: Way | null;
  redo: Way | null;
  /** Settles versions that did not know of each other: one that is given counts, or the one at hand (null). */
  settle: (instead: T | null) => void;
};

export type KeptOptions<T> = {
  stored: Stored<T>;
  /** Writes the next version over `base`, in place of `merged` as well, and gives its event's id. */
  save: (base: string | null, merged: string[], value: T) => Promise<string>;
  /** In what two versions differ, to name changes. */
  differ: (before: T, after: T) => Difference<T>[];
};

/**
 * A document at hand, kept as events while it is typed, whose last changes can be taken back. A version from another
 * device replaces it only while nothing of this page is pending; what was changed before belongs to the version
 * before, and can then not be taken back.
 */
export function useKept<T>({ stored, save, differ }: KeptOptions<T>): Kept<T> {
  const lead = useLead();
  const [value, setValue] = useState(stored.value);
  const [history, setHistory] = useState<History<T>>(noHistory);
  const latest = useRef({ value, history });
  const merged = useMerged(save);
  const keep = useKeeper(lead, stored.event, merged.save);

  const show = (next: T, past: History<T>): void => {
    latest.current = { value: next, history: past };
    setValue(next);
    setHistory(past);
  };
  const edit = useCallback<Kept<T>["edit"]>((change, said) => {
    const { value: before, history: past } = latest.current;
    const after = change(before);
    show(after, recorded(past, before, after, differ, said));
    keep.change(after);
  }, []);
  const flush = useCallback(async (): Promise<void> => {
    latest.current = { ...latest.current, history: sealed(latest.current.history) };
    await keep.flush();
  }, []);

  useEffect(() => {
    if (keep.dirty || stored.event === null || stored.event === keep.base) return;
    keep.rebase(stored.event);
    show(stored.value, noHistory());
  }, [stored.event]);
  useFlushOnLeave(lead, keep);

  const way = (to: { step: Step<T>; history: History<T> } | null, which: "before" | "after"): Way | null =>
    to && {
      text: to.step.text,
      go: () => {
        show(to.step[which], to.history);
        keep.change(to.step[which]);
        void keep.flush();
      },
    };
  return {
    value,
    edit,
    flush,
    undo: way(stepBack(history), "before"),
    redo: way(stepForward(history), "after"),
    settle: (instead) => {
      merged.name([...stored.others, ...(stored.event === null ? [] : [stored.event])]);
      if (instead === null) keep.change(latest.current.value);
      else edit(() => instead);
      void flush();
    },
  };
}

/** Versions that somebody looked at and that the next writing replaces as well. */
function useMerged<T>(save: KeptOptions<T>["save"]) {
  const named = useRef<readonly string[]>([]);
  return {
    name: (events: readonly string[]): void => {
      named.current = events;
    },
    save: async (base: string | null, value: T): Promise<string> => {
      const events = named.current.filter((event) => event !== base).slice(0, mostMerged);
      const id = await save(base, events, value);
      named.current = named.current.filter((event) => event !== base && !events.includes(event));
      return id;
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
