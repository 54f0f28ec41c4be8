import { designMethod } from "../design/method.ts";
import type { AskedAttribute } from "../model/attribute.ts";
import type { Plannable } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import type { Woven } from "../words/en/panel.ts";
import { choiceBallots } from "../words/en/panel-choice.ts";
import { panelLine } from "../words/en/panel-line.ts";

/** What the panelist reads, for a preview and for the ballots on paper: the words of the tablet, not a copy. */

/** A packet of the method that is written by an older version of the app names the wording that it had. */
export const choiceBallot = (wording: string) => choiceBallots[wording];
export const wordingOf = (method: Plannable): string => designMethod(method).wording;

/** The question about one sample and one property, with something set in for the code. */
export function lineQuestion<T>(
  question: Pick<AskedAttribute, "adjective" | "form" | "moment">,
  code: T,
  swallow: Plan["serving"]["swallow"],
): Woven<T> {
  return panelLine.mark.ask(question, code, swallow);
}
