import { type Opened, openedStudy } from "../../src/report/opened-study.ts";
import { study, studyEvents } from "../archive/scenario.ts";

/** The invented study, opened: 24 people, of whom `right` picked the odd sample; with other events when they are given. */
export const openedExample = (right = 14, texts = studyEvents({ right }), quarantined = 0): Opened => ({
  ...openedStudy(study, texts, quarantined, "0.1.0"),
  failure: null,
});
