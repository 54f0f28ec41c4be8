import { useEffect, useState } from "preact/hooks";
import type { Clock } from "./clock.ts";
import { coverAfter } from "./flow.ts";
import type { Session } from "./session.ts";
import type { SessionState } from "./session-base.ts";

/** The session's state, drawn again after every change. */
export function useSession(session: Session): SessionState {
  const [state, setState] = useState(session.state);
  useEffect(() => {
    setState(session.state);
    return session.onChange(() => setState(session.state));
  }, [session]);
  return state;
}

/** Something is being written when it is time to cover: how soon that is looked at again. */
const lookAgainMs = 1000;

/**
 * Covers what is on screen after a while without a touch or a key. Deletes nothing: a covered tray opens again with
 * its number, at the same place.
 */
export function useCover(session: Session, { step, packet }: SessionState, clock: Clock): void {
  const limit = coverAfter(step, packet?.pauseSeconds ?? 0);
  useEffect(() => {
    if (limit === null) return;
    let cancel = () => {};
    const cover = (): void => {
      if (session.state.busy) cancel = clock.after(lookAgainMs, cover);
      else void session.rest();
    };
    const restart = (): void => {
      cancel();
      cancel = clock.after(limit, cover);
    };
    restart();
    const signs = ["pointerdown", "keydown", "input"];
    for (const sign of signs) window.addEventListener(sign, restart, true);
    return () => {
      cancel();
      for (const sign of signs) window.removeEventListener(sign, restart, true);
    };
  }, [session, step.at, limit, clock]);
}

/** What fails outside of drawing and outside of the session's own writes is said too, and takes nothing off the screen. */
export function useReports(session: Session): void {
  useEffect(() => {
    const onError = (event: ErrorEvent): void => session.report(event.error ?? event.message);
    const onRejection = (event: PromiseRejectionEvent): void => session.report(event.reason);
    window.addEventListener("error", onError);
    window.addEventListener("unhandledrejection", onRejection);
    return () => {
      window.removeEventListener("error", onError);
      window.removeEventListener("unhandledrejection", onRejection);
    };
  }, [session]);
}
