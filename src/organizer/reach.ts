import { call } from "../device/transport.ts";
import { addressesReply, type Role } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import type { Lead } from "./app-context.ts";

/** The page of the app that a device of each role opens. */
export const entries: Record<Role, string> = {
  ...{ panel: "panel/", reader: "report/", lead: "organizer/", kitchen: "organizer/" },
};

/** "localhost" means another computer on every other device. */
export const isOwnComputer = (hostname: string): boolean => /^(localhost$|127\.|\[?::1\]?$)/.test(hostname);

/**
 * Where other devices reach this server, best first, each with a slash at its end. An address by which this browser
 * came over the network works for others of that network as well; on the server's own computer the server is asked.
 *
 * Throws   the Problem when it cannot be asked
 */
export async function addressesFor(
  { fetcher, who }: Pick<Lead, "fetcher" | "who">,
  location: { origin: string; hostname: string },
): Promise<string[]> {
  if (!isOwnComputer(location.hostname)) return [`${location.origin}/`];
  const outcome = await call(fetcher, addressesReply, "/api/addresses", { token: who.token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  return outcome.reply.addresses;
}

/** What a device scans: its page with the code after "#", which no server and no log ever sees. */
export const scanned = (address: string, role: Role, code: string): string =>
  `${address}${entries[role]}#${entries[role] === entries.lead ? "setup" : "code"}=${code}`;
