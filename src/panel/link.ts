import type { EventStore } from "../device/event-store.ts";
import { startSending } from "../device/sending.ts";
import type { Status } from "../model/http-device.ts";
import type { ProblemData } from "../model/problem.ts";
import type { Clock } from "./clock.ts";
import { callingNow, callWent, sendCallsBy } from "./help/calling.ts";
import { showHalted } from "./help/halted.tsx";
import { type Fetch, lookForNews } from "./news.ts";

export type LinkParts = {
  store: EventStore;
  fetcher: Fetch;
  clock: Clock;
  uniform: () => number;
  status: () => Promise<Status | null>;
  /** May a new packet replace the stored one now? */
  mayTakePacket: () => boolean;
  /** After each attempt: the problem, or null when the server answered. */
  onOutcome: (problem: ProblemData | null) => void;
};

export type Link = { sendNow: () => void; lookNow: () => void; stop: () => void };

const everyMs = 15_000;

const withCall = (status: Status | null, help: number | null): Status | null => status && { ...status, help };

/** Keeps a tablet in touch with its server: sends what is kept, and asks for news while the screen shows. */
export function startLink(parts: LinkParts): Link {
  const { store, fetcher, clock, mayTakePacket, onOutcome } = parts;
  let stopped = false;
  let cancel = () => {};
  const look = async (): Promise<void> => {
    cancel();
    if (document.visibilityState === "visible") {
      const problem = await lookForNews(store, fetcher, mayTakePacket, showHalted).catch(() => undefined);
      if (problem !== undefined && !stopped) onOutcome(problem);
    }
    cancel();
    if (!stopped) cancel = clock.after(everyMs, () => void look());
  };
  const onVisible = (): void => void look();
  document.addEventListener("visibilitychange", onVisible);
  window.addEventListener("online", onVisible);

  // what was known of this tablet under its old name is noted before it takes a new one
  const noting: Fetch = async (input, init) => {
    if (input === "/api/renew") await lookForNews(store, fetcher, mayTakePacket, showHalted);
    return fetcher(input, init);
  };
  let sending: ReturnType<typeof startSending> | null = null;
  void look().then(() => {
    if (stopped) return;
    const { uniform, status } = parts;
    sending = startSending({
      store,
      fetcher: noting,
      // a call ends with its tray: whoever is next asks for nobody yet
      status: async () => withCall(await status(), mayTakePacket() ? null : callingNow().tray),
      uniform,
      everyMs,
      onOutcome: (outcome) => {
        callWent(outcome.done !== "failed");
        onOutcome(outcome.done === "failed" ? outcome.problem : null);
      },
    });
    sendCallsBy(() => void sending?.sendNow());
    void sending.sendNow();
  });
  return {
    sendNow: () => void sending?.sendNow(),
    lookNow: () => void look(),
    stop: () => {
      stopped = true;
      cancel();
      sending?.stop();
      document.removeEventListener("visibilitychange", onVisible);
      window.removeEventListener("online", onVisible);
    },
  };
}
