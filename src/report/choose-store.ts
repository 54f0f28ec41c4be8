import { DeviceStore } from "../device/store.ts";

const leadStore = "cloche-lead";
const readerStore = "cloche-reader";

/**
 * The store this page reads from: the lead's, when this browser is enrolled as a lead's device, else one of its own.
 * Throws Problem "device/no-storage" and its like when the browser keeps nothing.
 */
export async function chooseStore(): Promise<DeviceStore> {
  if (await exists(leadStore)) {
    const lead = new DeviceStore(leadStore);
    if (await lead.identity()) return lead;
    await lead.close();
  }
  return new DeviceStore(readerStore);
}

/** Looking must not make an empty database; where a browser cannot list them, opening it is the only way to look. */
async function exists(name: string): Promise<boolean> {
  if (typeof indexedDB === "undefined" || typeof indexedDB.databases !== "function") return true;
  const known = await indexedDB.databases().catch(() => [{ name }]);
  return known.some((database) => database.name === name);
}
