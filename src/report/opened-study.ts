import { analyse } from "../analysis/analyse.ts";
import { recordOfFile } from "../archive/study-file.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { type Occasion, occasionOf } from "./occasion.ts";
import { type Without, withoutTrays } from "./without-trays.ts";

/** An opened study with everything its page draws. */
export type Opened = {
  record: StudyRecord;
  result: Result;
  /** What it would be without trays that were served outside of their window; null where there are none. */
  without: Without | null;
  occasion: Occasion;
  /** Exact texts of its events: what the study file holds and what verifying reads. */
  texts: string[];
  quarantined: number;
  /** Events that close or reveal saw and this device lacks, and those that this version cannot read. */
  missing: number;
  /** The tray of each remark, by the id of its event. The remarks themselves are fetched apart, by a lead only. */
  remarkTrays: Map<string, number>;
  /** Why the server gave nothing, when this is what the device held before; null when it is fresh. */
  failure: unknown;
};

/**
 * Everything the page draws of an opened study, from the exact texts of its events: by the same way as from its file, so
 * that both give one result. Throws what `recordOfFile` and `analyse` throw.
 */
export function openedStudy(study: string, texts: string[], quarantined: number, app: string): Omit<Opened, "failure"> {
  const file = { study, events: texts, quarantined };
  const { record, state, held, missing } = recordOfFile(file, reader.exports.study);
  const remarkTrays = new Map<string, number>();
  for (const fact of state.facts.values()) {
    if (fact.kind === "remark-kept") remarkTrays.set(fact.id, fact.body.tray);
  }
  return {
    ...{ record, texts, quarantined, remarkTrays },
    result: analyse(record, app),
    without: withoutTrays(record, app),
    occasion: occasionOf(state),
    missing: missing + held,
  };
}
