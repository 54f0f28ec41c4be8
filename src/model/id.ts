import { v4, v7 } from "uuid";

/** Name of an event: UUIDv7 (RFC 9562). A unique name only; neither an order, nor a clock, nor a secret. */
export const newEventId = (): string => v7();

/** Name of anything else (study, device, product): UUIDv4, so that the name tells nothing of the order of making. */
export const newId = (): string => v4();
