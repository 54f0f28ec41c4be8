import { eventText } from "../log/reading.ts";
import { panelBodies } from "../model/ballot-event.ts";
import { EventStore } from "./event-store.ts";

/** Events that a tablet writes: it never gets others, and need not load what they are made of. */
export const panelEvents = eventText(panelBodies);

/** What a tablet keeps. */
export class PanelStore extends EventStore {
  constructor(name: string) {
    super(name, panelEvents);
  }
}
