import * as z from "zod/mini";
import type { EventStore } from "./event-store.ts";

/** The usual speeds of balances, in baud (common practice, no source). */
export const bauds = [1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200] as const;
export const dataBits = [7, 8] as const;
export const parities = ["none", "even", "odd"] as const;
export const stopBits = [1, 2] as const;

/** How this device reads its balance: what is set at the balance, and whether its bare numbers are grams. */
const balanceSettings = z.strictObject({
  baud: z.literal(bauds),
  dataBits: z.literal(dataBits),
  parity: z.enum(parities),
  stopBits: z.literal(stopBits),
  bareGrams: z.boolean(),
});
export type BalanceSettings = z.infer<typeof balanceSettings>;

/** Where nobody has set anything; what serial ports take for granted, and a usual speed. */
export const firstBalanceSettings: BalanceSettings = {
  baud: 9600,
  dataBits: 8,
  parity: "none",
  stopBits: 1,
  bareGrams: false,
};

const name = "balance";

/** The settings kept on this device; the first ones where there are none that can be read. */
export async function keptBalanceSettings(store: EventStore): Promise<BalanceSettings> {
  const kept = z.safeParse(balanceSettings, await store.meta(name));
  return kept.success ? kept.data : firstBalanceSettings;
}

export const keepBalanceSettings = (store: EventStore, settings: BalanceSettings): Promise<void> =>
  store.setMeta(name, settings);
