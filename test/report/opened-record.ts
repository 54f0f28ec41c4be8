import { analyse } from "../../src/analysis/analyse.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import type { Opened } from "../../src/report/opened-study.ts";
import { withoutTrays } from "../../src/report/without-trays.ts";
import { juicinessMarks, lineRecord, preferenceRecord, votes } from "../analysis/study-records.ts";
import { linePlan, preferencePlan } from "../design/scenario.ts";

/** A record as the page has it, without the texts of its log. */
export const openedRecord = (record: StudyRecord): Opened => ({
  record,
  result: analyse(record, "0.1.0"),
  without: withoutTrays(record, "0.1.0"),
  occasion: { first: null, last: null, onPaper: 0, tablets: 1, screens: [{ widthPx: 1080, heightPx: 810 }] },
  texts: [],
  quarantined: 0,
  missing: 0,
  remarkTrays: new Map(),
  failure: null,
});

/** Scenario Q6: 60 diners, current 19, new 31, none 10. */
export const preferenceStudy = (): Opened =>
  openedRecord(preferenceRecord(preferencePlan({ people: 60, waves: sixty() }), votes(19, 31, 10)));

/** Scenario Q7: 12 people, three products, juiciness at 10 s. */
export const scaleStudy = (): Opened =>
  openedRecord(
    lineRecord(
      linePlan(),
      juicinessMarks.map((row) => [row.slice()]),
    ),
  );

/** Two waves of 30, with the batches of the invented kitchen. */
const sixty = () => preferencePlan().waves.map((wave) => ({ ...wave, people: 30 }));
