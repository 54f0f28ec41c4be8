import { shuffled } from "../design/random.ts";
import { noPreferenceChoice } from "../model/ballot-event.ts";
import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { chance } from "./chance.ts";
import { current, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { codeOf, type Lock } from "./lock.ts";
import { plannedSittings } from "./seating.ts";

/** How many of the 60 diners said what; who said it is drawn. */
const votes = { [steamed.id]: 31, [current.id]: 19, [noPreferenceChoice]: 10 };

const remarks: Readonly<Record<number, string>> = {
  12: "Both are fine with me.",
  33: "More gravy would settle it.",
  51: "This one I would order again.",
};

/** Diners take a minute less than a panel that has to find the odd one. */
const minutesATurn = 3.9;

/** Q6 from plan to opened key: new 31, current 19, no preference 10. */
export function preferenceDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q6", packet, newEventId);
  const said = Object.entries(votes).flatMap(([choice, people]) => Array<string>(people).fill(choice));
  const dealt = shuffled(said, chance("votes of Q6"));
  return [
    ...lockActs(lock, newEventId, { drafted: "8:21", locked: "8:44" }),
    ...paperActs(newEventId, "8:46"),
    ...plannedSittings(plan, minutesATurn).flatMap((sitting, at) => {
      const vote = dealt[at] ?? noPreferenceChoice;
      const choice = vote === noPreferenceChoice ? vote : codeOf(lock, sitting.tray, vote);
      const remark = remarks[sitting.tray];
      return ballots.choice(remark === undefined ? sitting : { ...sitting, remark }, choice);
    }),
    ...endActs(lock, newEventId, { closed: "13:46", revealed: "13:49", note: "" }),
  ];
}
