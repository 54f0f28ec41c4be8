import { render } from "@testing-library/preact";
import { IDBFactory } from "fake-indexeddb";
import type { ComponentChildren } from "preact";
import { DeviceStore } from "../../src/device/store.ts";
import { type Lead, LeadContext } from "../../src/organizer/app-context.ts";
import { neverSent } from "../../src/organizer/status.ts";

export const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
export const device = "6a1b7d90-55aa-4f0e-9d2b-0c7d1f3e9a42";
export const now = "2026-05-03T12:00:00.000Z";
export const stream = { kind: "study" as const, id: study };

/** A lead's browser in a DOM without a browser: a store of its own, no network, and a clock that stands still. */
export async function newLead(): Promise<Lead> {
  globalThis.indexedDB = new IDBFactory();
  window.scrollTo = () => {};
  const store = new DeviceStore(`lead-${crypto.randomUUID()}`);
  const who = { device, token: "token", role: "lead" as const, name: "Odalys Brandt", formerly: [] };
  await store.setMeta("identity", who);
  return {
    store,
    fetcher: async () => Promise.reject(new TypeError("no network")),
    who,
    now: () => now,
    sendNow: async () => {},
    sent: neverSent,
    keep: null,
    setKeep: () => {},
  };
}

export const asLead = (lead: Lead, children: ComponentChildren) =>
  render(<LeadContext.Provider value={lead}>{children}</LeadContext.Provider>);
