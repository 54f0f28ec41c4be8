import { foldStudy } from "../../src/log/fold.ts";
import { type Opened, openedStudy } from "../../src/report/load.ts";
import { studyEvents } from "../archive/scenario.ts";
import { knownAsFacts } from "./server.ts";

/** The invented study, opened: 24 people, of whom `right` picked the odd sample. */
export function openedExample(right = 14): Opened {
  const texts = studyEvents({ right });
  const facts = knownAsFacts(texts);
  const study = openedStudy(foldStudy(facts), facts, 0, "0.1.0");
  if (!study) throw new Error("the example is not opened");
  return { ...study, texts, failure: null };
}
