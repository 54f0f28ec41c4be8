import * as z from "zod/mini";
import type { EventStore } from "../device/event-store.ts";
import { whole } from "../model/schema.ts";

/** The tablet held `known` records by the server's word, and holds `found`: its storage was cleared in between. */
const emptied = z.strictObject({ known: whole, found: whole });
export type Emptied = z.infer<typeof emptied>;

export async function readEmptied(store: EventStore): Promise<Emptied | null> {
  const parsed = z.safeParse(emptied, await store.meta("emptied"));
  return parsed.success ? parsed.data : null;
}

export const forgetEmptied = (store: EventStore): Promise<void> => store.setMeta("emptied", null);
