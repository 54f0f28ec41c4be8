import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Append, EventStore, Identity } from "../device/event-store.ts";
import type { Fact, Kind } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import type { KeepState } from "./draft-keeper.ts";
import type { Sent } from "./status.ts";

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/** What every screen of the lead is given. Clock, network and store come from the entry file. */
export type Lead = {
  store: EventStore;
  fetcher: Fetch;
  who: Identity;
  /** The clock, as an instant. */
  now: () => string;
  /** Sends what is unsent and resolves when that try is over. */
  sendNow: () => Promise<void>;
  sent: Sent;
  /** What the plan page is keeping at the moment; shown in the header. */
  keep: KeepState | null;
  setKeep: (state: KeepState | null) => void;
};

export const LeadContext = createContext<Lead | null>(null);

/** The lead's context. Throws outside of the enrolled app: a programmer's mistake. */
export function useLead(): Lead {
  const lead = useContext(LeadContext);
  if (!lead) throw new Error("no lead context");
  return lead;
}

/** Adds an event under the device's identity of the moment (a cloned device gets a new one), then has it sent. */
export async function appendEvent<K extends Kind>(
  lead: Pick<Lead, "store" | "now" | "sendNow">,
  what: Append<K>,
): Promise<Fact> {
  const who = await lead.store.identity();
  if (!who) throw problem("access/not-enrolled");
  const fact = await lead.store.append(who.device, lead.now(), what);
  await lead.store.setMeta("last-kept", fact.at);
  void lead.sendNow();
  return fact;
}
