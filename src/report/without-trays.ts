import { analyse } from "../analysis/analyse.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";

/** The result as it would be without trays that were served outside of the planned window. It takes no result's place. */
export type Without = { trays: number[]; result: Result };

/**
 * Returns  null where no counted tray was noted as served outside of its window, where nothing would be left, and where a
 *          rule for stopping says on which answers the verdict stands
 */
export function withoutTrays(record: StudyRecord, app: string): Without | null {
  const outside = new Set(
    record.departures.flatMap((departure) => (departure.what === "served-outside-window" ? departure.trays : [])),
  );
  const counted = [...record.judgments, ...record.marks, ...record.portions].map(({ tray }) => tray);
  const trays = [...new Set(counted.filter((tray) => outside.has(tray)))].sort((a, b) => a - b);
  const nothingLeft = counted.every((tray) => outside.has(tray));
  if (trays.length === 0 || nothingLeft || record.plan.stopping.rule !== "fixed") return null;
  const kept = <T extends { tray: number }>(all: readonly T[]): T[] => all.filter(({ tray }) => !outside.has(tray));
  const { judgments, marks, portions } = record;
  const rest = { ...record, judgments: kept(judgments), marks: kept(marks), portions: kept(portions) };
  return { trays, result: analyse(rest, app) };
}
