import { useState } from "preact/hooks";
import { call } from "../device/transport.ts";
import { type Call, callsReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { minutesBetween } from "./day.ts";
import { usePolling } from "./facts.ts";

const everyMs = 5_000;

/** Tablets whose panelist asks for somebody, as the server last heard. Without network there is nothing to show, and the page says so. */
export function Calls({ id }: { id: string }) {
  const lead = useLead();
  const [calls, setCalls] = useState<Call[]>([]);
  const look = async (): Promise<void> => {
    const outcome = await call(lead.fetcher, callsReply, `/api/studies/${id}/calls`, { token: lead.who.token });
    if (!outcome.ok) throw new Problem(outcome.problem);
    setCalls(outcome.reply.calls);
  };
  usePolling(lead, look, everyMs, [id, lead.who.token]);
  return (
    <div role="status">
      {calls.length > 0 ? (
        <div class="note">
          <p>
            <strong>{onDayWords.calls.heading}</strong>
          </p>
          {calls.map(({ device, tray, name, lastSeen }) => (
            <p key={device}>
              {onDayWords.calls.call(trayLabel(tray), name)}{" "}
              <span class="fine">{dayWords.tablets.since(minutesBetween(lastSeen, lead.now()))}</span>
            </p>
          ))}
        </div>
      ) : null}
    </div>
  );
}
