import { backOff, type SendOutcome, sendAll } from "../log/outbox.ts";
import { enrollReply, type Status } from "../model/http-device.ts";
import type { EventStore } from "./event-store.ts";
import { call, httpTransport } from "./transport.ts";

export type SendingOptions = {
  store: EventStore;
  fetcher: (input: string, init: RequestInit) => Promise<Response>;
  status: () => Promise<Status | null>;
  /** Uniform in [0, 1): spreads retries. */
  uniform: () => number;
  /** Milliseconds between looks while all is well. */
  everyMs: number;
  /** After each run, for the status line. */
  onOutcome: (outcome: SendOutcome) => void;
};

/**
 * Keeps sending what is unsent: at once, after every change, when the network or the screen comes back, and on a
 * timer that backs off while it fails. One run at a time; a lock across tabs only saves work, since the server takes
 * every event once. Returns the way to send now and the way to stop.
 */
export function startSending(options: SendingOptions): { sendNow: () => Promise<void>; stop: () => void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | null = null;
  let again = false;
  let failures = 0;
  let skipped = 0;
  let stopped = false;

  const run = async (): Promise<void> => {
    const outcome = await oneRun(options, skipped >= 3);
    if (outcome === "elsewhere") skipped += 1;
    else skipped = 0;
    if (outcome === "elsewhere" || outcome === "not-enrolled") return schedule(options.everyMs);
    failures = outcome.done === "failed" ? failures + 1 : 0;
    const wait =
      outcome.done === "failed" ? backOff(failures, options.uniform(), outcome.retryAfterSeconds) : options.everyMs;
    options.onOutcome(outcome);
    schedule(wait);
  };
  const schedule = (wait: number): void => {
    clearTimeout(timer);
    if (!stopped) timer = setTimeout(() => void sendNow(), wait);
  };
  const sendNow = async (): Promise<void> => {
    if (stopped) return;
    if (running) {
      again = true;
      return running;
    }
    clearTimeout(timer);
    running = run()
      .catch(() => schedule(options.everyMs))
      .finally(() => {
        running = null;
      });
    await running;
    if (again) {
      again = false;
      await sendNow();
    }
  };
  const onVisible = (): void => {
    if (document.visibilityState === "visible") void sendNow();
  };
  const onOnline = (): void => void sendNow();
  window.addEventListener("online", onOnline);
  document.addEventListener("visibilitychange", onVisible);
  return {
    sendNow,
    stop: () => {
      stopped = true;
      clearTimeout(timer);
      window.removeEventListener("online", onOnline);
      document.removeEventListener("visibilitychange", onVisible);
    },
  };
}

/**
 * One run under the lock. While another tab is sending it is left to it; but a frozen tab still holds its lock, so
 * after a few misses (`force`) this tab sends all the same.
 */
async function oneRun(options: SendingOptions, force: boolean): Promise<SendOutcome | "elsewhere" | "not-enrolled"> {
  const who = await options.store.identity();
  if (!who) return "not-enrolled";
  const work = async (): Promise<SendOutcome> => {
    const outcome = await sendAll(options.store, httpTransport(options.fetcher, who.token), () =>
      soon(options.status()),
    );
    if (outcome.done === "rolled-back") await renew(options);
    return outcome;
  };
  if (force || !("locks" in navigator)) return work();
  return navigator.locks.request(`cloche-sending-${who.device}`, { ifAvailable: true }, (lock) =>
    lock ? work() : ("elsewhere" as const),
  );
}

/** The storage of this device was rolled back or cloned: it goes on under a new id; what it wrote keeps the old one. */
async function renew({ store, fetcher }: SendingOptions): Promise<void> {
  const who = await store.identity();
  if (!who) return;
  const outcome = await call(fetcher, enrollReply, "/api/renew", { token: who.token, body: {} });
  if (!outcome.ok) return;
  const { device, token, role, name } = outcome.reply;
  await store.setMeta("identity", { device, token, role, name, formerly: [...who.formerly, who.device] });
}

/** What a promise gives within two seconds, else null: a battery that never answers must not hold up answers. */
async function soon<T>(promise: Promise<T>): Promise<T | null> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<null>((done) => {
    timer = setTimeout(() => done(null), 2000);
  });
  return Promise.race([promise.catch(() => null), late]).finally(() => clearTimeout(timer));
}
