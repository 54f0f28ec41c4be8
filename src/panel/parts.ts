import type { Status } from "../model/http-device.ts";
import type { Fetch } from "./news.ts";
import type { SessionParts } from "./session-base.ts";
import type * as toolsRoom from "./tools/tools-room.tsx";

/** What the tablet needs of its surroundings. `main.tsx` hands in the browser's; a test hands in its own. */
export type AppParts = Omit<SessionParts, "onKept" | "wordings"> & {
  fetcher: Fetch;
  /** Uniform in [0, 1): spreads retries. */
  uniform: () => number;
  /** What the lead sees of this tablet's state. */
  status: () => Promise<Status | null>;
  /** A one-time code that came with the address; empty when none did. */
  code: string;
  /** Was a tablet enrolled in this browser before, by the server's word? Asked only when this one knows nothing. */
  wasEnrolled: () => Promise<boolean>;
  /** Asks the browser to keep the storage for good. */
  persist: () => void;
  /** Does the page open while the network is away? */
  worksOffline: () => boolean;
  /** Calls back when a new version of the app waits; that one takes over when `accept` is called, and then it is done. */
  watchForUpdate: (onWaiting: (accept: () => Promise<void>) => void) => void;
  /** What only the staff's pages need; fetched right after the start, so that they open without network too. */
  loadTools: () => Promise<typeof toolsRoom>;
  /** Does something while no window of this tablet has a tray in hand; false, and not done, when one has. */
  betweenTrays: (work: () => Promise<unknown>) => Promise<boolean>;
};
