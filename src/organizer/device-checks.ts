import type { DeviceInfo } from "../model/http.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";

/** Milliseconds without a word after which a device is called quiet: several missed looks. */
const quietMs = 60_000;

/** Was it longer ago than several missed looks? By the server's clock and this one. */
export const isLongAgo = (lastSeen: string, now: string): boolean => Date.parse(now) - Date.parse(lastSeen) > quietMs;

/** Has a tablet that is in use not been heard of for a while? By the server's clock and this one: shown, never decided on. */
export const isQuiet = ({ role, revoked, lastSeen }: DeviceInfo, now: string): boolean =>
  role === "panel" && !revoked && lastSeen !== null && isLongAgo(lastSeen, now);

/**
 * What a tablet said of itself that the lead should know before the tasting.
 *
 * Takes    neededMm: the length of the line of the study it serves; null when that study has none
 */
export function checksOf({ role, status }: DeviceInfo, neededMm: number | null): string[] {
  if (role !== "panel" || !status) return [];
  const words = tabletWords.checks;
  const checks: string[] = [];
  if (status.persisted !== null) checks.push(status.persisted ? words.persisted : words.notPersisted);
  const reach = status.lineMm ?? null;
  // millimeters as a person reads them; a line is long enough when its true length is, not its rounded one
  const shown = reach === null ? null : Math.floor(reach);
  if (neededMm !== null) {
    if (reach === null || shown === null) checks.push(words.lineNeeded(neededMm));
    else checks.push(reach < neededMm ? words.lineShort(shown, neededMm) : words.line(shown));
  } else if (status.lineMm !== undefined) checks.push(shown === null ? words.lineUnchecked : words.line(shown));
  return checks;
}
