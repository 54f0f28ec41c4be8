import type { Ask } from "../demo/load.ts";
import { call } from "../device/transport.ts";
import { newEventId, newId } from "../model/id.ts";
import { Problem } from "../model/problem.ts";
import { appVersion } from "../ui/app-version.ts";
import type { Fetch, Lead } from "./app-context.ts";
import { fetchClaims, fetchStudies } from "./facts.ts";
import { namesPrefix } from "./paper-seating.tsx";

/** The demo, written and enrolled. `finish` sends and fetches it, and may be called again after a failure. */
export type Demo = { finish: () => Promise<void> };

/** The day of the demo is a day of this browser's time zone. */
const offsetMinutes = (): number => new Date(2026, 4, 12).getTimezoneOffset();

/**
 * Writes the demo for this server. The scenario is fetched only now: few leads ever want it.
 * Throws   Problem "demo/already-there", or what the server or the network say
 */
export async function beginDemo(lead: Lead): Promise<Demo> {
  const [{ prepareDemo }, { panelists }] = await Promise.all([import("../demo/load.ts"), import("../demo/kitchen.ts")]);
  const writing = { newStudyId: newId, newEventId, offsetMinutes: offsetMinutes(), app: appVersion };
  const { studies, send } = await prepareDemo(askOf(lead.fetcher), lead.who.token, writing);
  const seated = studies.filter((study) => study.seated);
  return {
    finish: async () => {
      await send();
      // names stand where they stand for a real study: in this browser alone, erasable, beside the log
      for (const { id } of seated) {
        for (const [at, name] of panelists.entries()) await lead.store.saveName(`${namesPrefix(id)}${at + 1}`, name);
      }
      await fetchStudies(lead);
      await fetchClaims(lead);
    },
  };
}

/** Without cookies: else this browser would pass for one of the demo's tablets when it is enrolled as one later. */
function askOf(fetcher: Fetch): Ask {
  const withoutCookies: Fetch = (path, init) => fetcher(path, { ...init, credentials: "omit" });
  return async (schema, path, { token, body }) => {
    const outcome = await call(withoutCookies, schema, path, { token, body });
    if (!outcome.ok) throw new Problem(outcome.problem);
    return outcome.reply;
  };
}
