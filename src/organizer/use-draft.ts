import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import type { Plan } from "../model/plan.ts";
import { appendEvent, type Lead, useLead } from "./app-context.ts";
import { DraftKeeper } from "./draft-keeper.ts";

const delayMs = 800;

export type Edit = (change: (plan: Plan) => Plan, undoText?: string) => void;
export type Draft = {
  plan: Plan;
  edit: Edit;
  /** Writes what is pending at once. */
  flush: () => Promise<void>;
  /** What the last removal took away, and the way back. */
  undo: { text: string; back: () => void } | null;
};

/**
 * The plan at hand, kept as draft events while it is typed. A version from another device replaces it only while
 * nothing of this page is pending.
 */
export function useDraft(study: string, stored: NonNullable<StudyState["draft"]>): Draft {
  const lead = useLead();
  const [plan, setPlan] = useState(stored.plan);
  const [undo, setUndo] = useState<{ text: string; plan: Plan } | null>(null);
  const latest = useRef(plan);
  const keep = useKeeper(lead, study, stored.event);

  const set = useCallback((next: Plan) => {
    latest.current = next;
    setPlan(next);
    keep.change(next);
  }, []);
  const edit = useCallback<Edit>((change, undoText) => {
    setUndo(undoText === undefined ? null : { text: undoText, plan: latest.current });
    set(change(latest.current));
  }, []);

  useEffect(() => {
    if (keep.dirty || stored.event === keep.base) return;
    keep.rebase(stored.event);
    latest.current = stored.plan;
    setPlan(stored.plan);
  }, [stored.event]);
  useFlushOnLeave(lead, keep);

  return {
    plan,
    edit,
    flush: () => keep.flush(),
    undo: undo && {
      text: undo.text,
      back: () => {
        set(undo.plan);
        setUndo(null);
      },
    },
  };
}

/** The keeper of this page: made once, and writing drafts of this study. */
function useKeeper(lead: Lead, study: string, base: string): DraftKeeper {
  const keeper = useRef<DraftKeeper | null>(null);
  keeper.current ??= new DraftKeeper({
    base,
    delayMs,
    onState: lead.setKeep,
    save: async (before, plan) => {
      const stream = { kind: "study" as const, id: study };
      return (await appendEvent(lead, { stream, kind: "draft-saved", body: { base: before, plan } })).id;
    },
  });
  return keeper.current;
}

/** Writes what is pending when the page is left or put away. */
function useFlushOnLeave(lead: Lead, keep: DraftKeeper): void {
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
