import type { Status } from "../model/http.ts";
import { notePresence } from "./query/devices.ts";
import type { Db } from "./query/tables.ts";
import { instantOf } from "./serve.ts";

/**
 * When each device was last heard of and what it said of itself: status, not events.
 *
 * Kept in memory and written now and then, so that forty tablets that ask every few seconds cost no disk sync each.
 * A crash loses at most the time since the last `flush`.
 */
export class Presence {
  readonly #now: () => number;
  readonly #seen = new Map<string, { lastSeen: string; status: Status | null }>();
  #fresh = new Set<string>();

  constructor(now: () => number) {
    this.#now = now;
  }

  note(device: string, status: Status | null): void {
    const before = this.#seen.get(device)?.status ?? null;
    this.#seen.set(device, { lastSeen: instantOf(this.#now()), status: status ?? before });
    this.#fresh.add(device);
  }

  of(device: string): { lastSeen: string; status: Status | null } | null {
    return this.#seen.get(device) ?? null;
  }

  async flush(db: Db): Promise<void> {
    const fresh = this.#fresh;
    this.#fresh = new Set();
    for (const device of fresh) {
      const seen = this.#seen.get(device);
      if (seen) await notePresence(db, device, seen.lastSeen, seen.status && JSON.stringify(seen.status));
    }
  }
}
