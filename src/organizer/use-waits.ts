import { useEffect, useState } from "preact/hooks";
import type { WeighRow } from "./weigh.ts";

/** Coarse on purpose: whoever weighs reads a balance, not a clock. */
const lookEveryMs = 10_000;

/**
 * When this device learned of each chewed portion, by its monotonic clock. It outlives the page within the app, not a load.
 * Clocks of two devices are never compared: a tablet's may be minutes off, and nobody would see it in the delay.
 */
const learned = new Map<string, number>();

/**
 * How long closed cups have waited to be weighed, as far as this device can know: no less than that.
 *
 * Takes    id: of the study; rows: as the page knows them now
 * Returns  seconds since this device learned that the portion was chewed; null where nothing waits. The page is drawn again
 *          now and then while one does
 */
export function useWaits(id: string, rows: readonly WeighRow[]): (row: WeighRow) => number | null {
  const [, setLooks] = useState(0);
  const nameOf = ({ tray, code }: WeighRow): string => `${id} ${tray} ${code}`;
  const waiting = rows.filter(({ chewed, after }) => chewed && after.length === 0);
  for (const row of waiting) {
    // drawing twice changes nothing: the first time stays
    if (!learned.has(nameOf(row))) learned.set(nameOf(row), performance.now());
  }
  const some = waiting.length > 0;
  useEffect(() => {
    if (!some) return;
    const timer = setInterval(() => setLooks((looks) => looks + 1), lookEveryMs);
    return () => clearInterval(timer);
  }, [some]);
  return (row) => {
    const since = row.after.length === 0 ? learned.get(nameOf(row)) : undefined;
    return since === undefined ? null : (performance.now() - since) / 1000;
  };
}
