/** Whether the panelist of a tray asks for somebody. It is status of the tablet, never an event: no record of it stays. */

export type Calling = {
  /** The tray that somebody is called to; null: none. */
  tray: number | null;
  /** waiting: on its way; sent: the server has it; failed: it could not be sent. */
  at: "waiting" | "sent" | "failed";
};

let calling: Calling = { tray: null, at: "waiting" };
let send = (): void => {};
const listeners = new Set<() => void>();

const set = (next: Calling): void => {
  calling = next;
  for (const listener of listeners) listener();
};

export const callingNow = (): Calling => calling;

/** Calls back after every change; returns the way to stop that. */
export function onCalling(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Calls somebody to a tray, or takes the call back with null. What is sent tells the server. */
export function callTo(tray: number | null): void {
  set({ tray, at: "waiting" });
  send();
}

/** What sends at once; set by what talks to the server. */
export function sendCallsBy(sendNow: () => void): void {
  send = sendNow;
}

/** How the last try to reach the server went. */
export function callWent(ok: boolean): void {
  if (calling.tray !== null) set({ ...calling, at: ok ? "sent" : "failed" });
}
