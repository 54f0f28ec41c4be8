import { allEvents } from "../log/facts.ts";
import { EventStore } from "./event-store.ts";

/** What a lead's or a reader's device keeps: events of every kind. */
export class DeviceStore extends EventStore {
  constructor(name: string) {
    super(name, allEvents);
  }
}
