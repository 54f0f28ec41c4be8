import { call } from "../device/transport.ts";
import type { Attachment } from "../model/ballot-event.ts";
import { remarksReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import type { Fetch } from "./load.ts";

/** The remarks of an opened study, for a lead. Throws the Problem when the server refuses or is not reached. */
export async function fetchRemarks(fetcher: Fetch, token: string, study: string): Promise<Attachment[]> {
  const outcome = await call(fetcher, remarksReply, `/api/studies/${study}/remarks`, { token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  return outcome.reply.remarks;
}

export type TrayRemark = { tray: number; text: string };

/**
 * Remarks by tray, in order of tray. The trays are read from the log's texts, since a remark itself names only its event.
 * A remark whose event is not known is left out: nobody could say where it belongs.
 */
export function byTray(remarks: readonly Attachment[], trayOf: ReadonlyMap<string, number>): TrayRemark[] {
  return remarks
    .flatMap(({ event, text }) => {
      const tray = trayOf.get(event);
      return tray === undefined ? [] : [{ tray, text }];
    })
    .sort((a, b) => a.tray - b.tray);
}
