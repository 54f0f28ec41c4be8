import type { DeviceStore, Identity } from "../device/store.ts";
import { call } from "../device/transport.ts";
import { enrollReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import type { Fetch } from "./news.ts";

/**
 * Turns a one-time code into this tablet's identity and keeps it. A tablet that is enrolled again names what it was
 * called before, so that it may go on sending what it wrote then.
 *
 * Returns  the identity; null when the code was made for another role, and nothing was changed
 * Throws   the Problem of the server, of the network or of the storage
 */
export async function enrollTablet(
  store: DeviceStore,
  fetcher: Fetch,
  code: string,
  name: string,
): Promise<Identity | null> {
  const before = await store.identity();
  const formerly = before ? [...before.formerly, before.device] : [];
  // the server takes the last twenty names
  const body = { code, name, ...(formerly.length > 0 ? { formerly: formerly.slice(-20) } : {}) };
  const outcome = await call(fetcher, enrollReply, "/api/enroll", { body });
  if (!outcome.ok) throw new Problem(outcome.problem);
  const { device, token, role } = outcome.reply;
  if (role !== "panel") return null;
  const identity = { device, token, role, name: outcome.reply.name, formerly };
  await store.setMeta("identity", identity);
  return identity;
}

/** The code in an address that ends in "#code=K7QM-4XTP"; null when there is none. */
export function codeInAddress(hash: string): string | null {
  return new URLSearchParams(hash.replace(/^#/, "")).get("code");
}
