import { designMethod } from "../design/method.ts";
import type { Plannable } from "../model/method.ts";
import type { Attribute } from "../model/plan.ts";
import type { Woven } from "../words/en/panel.ts";
import { choiceBallots } from "../words/en/panel-choice.ts";
import { panelLine } from "../words/en/panel-line.ts";

/** What the panelist reads, for a preview and for the ballots on paper: the words of the tablet, not a copy. */

/** A packet of the method that is written by an older version of the app names the wording that it had. */
export const choiceBallot = (wording: string) => choiceBallots[wording];
export const wordingOf = (method: Plannable): string => designMethod(method).wording;

/** The question about one sample and one property, with something set in for the code. */
export function lineQuestion<T>(attribute: Pick<Attribute, "adjective" | "moment">, code: T): Woven<T> {
  const { adjective, moment } = attribute;
  return panelLine.mark.ask(adjective.trim(), code, moment.at === "after" ? moment.seconds : 0);
}
