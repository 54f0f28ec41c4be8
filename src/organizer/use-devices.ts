import { useState } from "preact/hooks";
import * as z from "zod/mini";
import { call } from "../device/transport.ts";
import { type DeviceInfo, devicesReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { useReading } from "../ui/use-store.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { type Lead, useLead } from "./app-context.ts";
import { type Fetching, usePolling, watchOf } from "./facts.ts";

const kept = "devices";

/** Fetches the devices and keeps the list, so that names are known offline too. Throws the Problem. */
export async function fetchDevices({ store, fetcher, who }: Lead): Promise<DeviceInfo[]> {
  const outcome = await call(fetcher, devicesReply, "/api/devices", { token: who.token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  const { devices } = outcome.reply;
  const before = await store.meta(kept);
  if (JSON.stringify(before) !== JSON.stringify(devices)) await store.setMeta(kept, devices);
  return devices;
}

export type Devices = {
  /** As last fetched, perhaps long ago; null before the first time. */
  list: DeviceInfo[] | null;
  fetching: Fetching;
  /** The name of a device, or a short form of its id. */
  nameOf: (device: string) => string;
  refresh: () => Promise<void>;
};

/** Where a ballot was given: the tablet's name; or that it was on paper, and where that was typed in. */
export const whereOf = ({ device, paper }: { device: string; paper: unknown }, { nameOf }: Devices): string =>
  paper ? dayWords.fromPaper(nameOf(device)) : nameOf(device);

/** The devices of this kitchen, fetched anew every few seconds. */
export function useDevices(everyMs = 8_000): Devices {
  const lead = useLead();
  const [count, setCount] = useState(0);
  const fetching = usePolling(lead, async () => void (await fetchDevices(lead)), everyMs, [lead.who.token, count]);
  const stored = useReading(() => lead.store.meta(kept), watchOf(lead.store), []);
  const parsed = z.safeParse(devicesReply.shape.devices, stored);
  const list = parsed.success ? parsed.data : null;
  return {
    list,
    fetching,
    nameOf: (device) => list?.find(({ id }) => id === device)?.name || dayWords.thisTablet(device),
    refresh: async () => {
      await fetchDevices(lead);
      setCount((before) => before + 1);
    },
  };
}
