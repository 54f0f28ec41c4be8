import { type ReadEntry, readTemperatures } from "../archive/temperature-rows.ts";
import { temperaturesCsv } from "../archive/temperatures-csv.ts";
import { rowsOfDay, unnamed } from "../log/day-rows.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";

/** The day's temperatures and times by pot: of products it knows nothing, open key or not. */
export const temperaturesFile = (day: KitchenDay, plan: Plan): string =>
  temperaturesCsv(rowsOfDay(day, plan, unnamed), null, true);

type Known = { id: string; at: string; kind: string; body: object };
/** How far the clocks of two devices of a kitchen may be apart, in milliseconds (common practice, no source). */
const clocksApart = 5 * 60_000;

/** `thing`: what entries are about; of one thing each follows those above it. `at`: when it was read, where the line says it. */
export type ToWrite = { entry: ReadEntry; thing: string; at: number | null };

/**
 * What of a file is not in the log yet.
 *
 * Takes    instantOf: a time of the clock on the wall as an instant of the day; now: milliseconds since 1970
 * Returns  entries in the order of the file; how many were there already; how many lines say when trays were served
 * Throws   what `readTemperatures` throws, and "csv/bad-value" where a pot has yet to leave the heat, or to be read: no limit of
 *          time would hold it back until then. A file with anything wrong in it is not taken at all
 */
export function entriesFrom(
  day: KitchenDay,
  text: string,
  path: string,
  instantOf: (clock: string) => string,
  now: number,
): { list: ToWrite[]; same: number; served: number } {
  const waves = day.waves.map(({ wave, pots }) => ({ wave, pots: pots.map(({ pot }) => pot) }));
  const { entries, servedLines } = readTemperatures(text, path, { waves, instantOf });
  const known = knownOf(day);
  const fresh = entries.filter((entry) => !known.some((one) => isSame(one, entry)));
  for (const { line, kind, body, own } of fresh) {
    const said = kind === "heat-left" ? body.left : kind === "holding-read" ? body.read : null;
    if (said !== null && Date.parse(said) > now + clocksApart)
      throw problem("csv/bad-value", { path, line, column: "time", value: own.time });
  }
  return {
    list: fresh.map((entry) => ({ entry, thing: thingOf(entry.kind, entry.body), at: timeOf(entry, instantOf) })),
    same: entries.length - fresh.length,
    served: servedLines.length,
  };
}

/** A line has the time of a clock on the wall; one of a file that was saved here the instant of its entry. */
const timeOf = ({ own: { time } }: ReadEntry, instantOf: (clock: string) => string): number | null => {
  const at = time === "" ? Number.NaN : Date.parse(/^\d{1,2}:\d\d$/.test(time) ? instantOf(time) : time);
  return Number.isNaN(at) ? null : at;
};

export type Latest = { id: string; at: number };

/** What a line follows: of the latest entries those that are not later than it. An old reading frees nothing that was read since. */
export const followedBy = (latest: readonly Latest[], at: number | null): Latest[] =>
  latest.filter((each) => at === null || each.at <= at + clocksApart).slice(0, 50);

/** The entries of each thing that nothing follows yet: what the first line about it follows. */
export function latestByThing(day: KitchenDay): Map<string, Latest[]> {
  const latest = new Map<string, Latest[]>();
  const add = ({ id, at, kind, body }: Known): void => {
    const thing = thingOf(kind, body);
    latest.set(thing, [...(latest.get(thing) ?? []), { id, at: Date.parse(at) }]);
  };
  for (const { pots } of day.waves) {
    for (const pot of pots) {
      for (const { entry, latest: last } of [...pot.cores, ...pot.holdings]) if (last) add(entry);
      for (const entry of pot.leftEntries) if (pot.latestLeft.includes(entry.id)) add(entry);
    }
  }
  return latest;
}

/** A core is one of the batch, whatever the wave it was read for; what is held or left is said wave by wave. */
function thingOf(kind: string, body: object): string {
  const of = (field: string): unknown => (field in body ? body[field as keyof typeof body] : "");
  return kind === "core-read" ? `${kind} ${of("pot")}` : `${kind} ${of("wave")} ${of("pot")} ${of("held")}`;
}

const knownOf = ({ waves }: KitchenDay): Known[] =>
  waves.flatMap(({ pots, servings }) => [
    ...pots.flatMap(({ cores, holdings, leftEntries }) => [
      ...[...cores, ...holdings].map(({ entry }) => entry),
      ...leftEntries,
    ]),
    ...servings,
  ]);

const readOf = (body: object): string | null => ("read" in body && typeof body.read === "string" ? body.read : null);

function isSame(known: Known, { kind, body, own }: ReadEntry): boolean {
  if (known.kind !== kind) return false;
  // an older reading of what is held says in a file alone when it was taken: the time of its entry
  const read = readOf(known.body) ?? (known.at === own.time ? readOf(body) : null);
  const text = (of: object, note: string): string =>
    JSON.stringify(
      { ...of, ...(of === known.body && "read" in body ? { read } : {}), note, after: [] },
      Object.keys(body).sort(),
    );
  const noteOf = (of: object): string => ("note" in of ? String(of.note) : "");
  if (text(known.body, noteOf(known.body)) === text(body, body.note)) return true;
  // a file that was saved here has the time at which the entry was made beside its note
  return known.at === own.time && text(known.body, noteOf(known.body)) === text(body, own.note);
}
