import { createContext } from "preact";
import { useContext } from "preact/hooks";
import { panel as en, type PanelWords } from "../words/en/panel.ts";
import type { Clock } from "./clock.ts";
import type { Standing } from "./standing.ts";

/** What every screen of the tablet has at hand. */
export type Desk = {
  words: PanelWords;
  clock: Clock;
  /** What the server does not have yet; undefined until read, null when it cannot be read. */
  standing: Standing | null | undefined;
  /** Does the page open while the network is away? */
  worksOffline: boolean;
  mustEnrollAgain: boolean;
};

const nowhere: Desk = {
  words: en,
  clock: { monotonic: () => 0, instant: () => "1970-01-01T00:00:00.000Z", after: () => () => {} },
  standing: undefined,
  worksOffline: false,
  mustEnrollAgain: false,
};

export const DeskContext = createContext<Desk>(nowhere);
export const useDesk = (): Desk => useContext(DeskContext);
