import { enrollReply, type Role } from "../model/http-device.ts";
import { Problem } from "../model/problem.ts";
import type { EventStore, Identity } from "./event-store.ts";
import { call } from "./transport.ts";

type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/** The server takes the last twenty names a device had. */
const namesTaken = 20;

/**
 * Turns a one-time code into this device's identity and keeps it. A device that is enrolled again names what it was
 * called before, so that it may go on sending what it wrote then. Nothing it holds is touched.
 *
 * Takes    roles: what the code may make of this device
 * Returns  the identity; null when the code was made for another role, and nothing was changed here
 * Throws   the Problem of the server, of the network or of the storage
 */
export async function enrollDevice(
  store: EventStore,
  fetcher: Fetch,
  roles: readonly Role[],
  { code, name }: { code: string; name: string },
): Promise<Identity | null> {
  const before = await store.identity();
  const formerly = before ? [...before.formerly, before.device] : [];
  const body = { code, name, ...(formerly.length > 0 ? { formerly: formerly.slice(-namesTaken) } : {}) };
  const outcome = await call(fetcher, enrollReply, "/api/enroll", { body });
  if (!outcome.ok) throw new Problem(outcome.problem);
  const { device, token, role, name: called } = outcome.reply;
  if (!roles.includes(role)) return null;
  const identity = { device, token, role, name: called, formerly };
  await store.setMeta("identity", identity);
  return identity;
}
