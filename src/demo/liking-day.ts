import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { current, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { likingQuestions } from "./plans-marks.ts";
import { plannedSittings } from "./seating.ts";

const order = [current.id, steamed.id];
const questions: string[] = [likingQuestions.liking, likingQuestions.juiciness];

/** One diner a word pair, current and new: the step of liking (of nine), then that of juiciness (of five, 3 just right). */
const said: readonly string[] = [
  ...["53 53", "73 93", "62 53", "63 82", "72 82", "72 63"],
  ...["93 73", "62 62", "32 43", "63 62", "52 44", "42 62"],
  ...["73 63", "41 51", "72 93", "51 52", "62 63", "42 74"],
  ...["83 53", "72 73", "72 93", "51 82", "42 42", "52 73"],
  ...["62 74", "83 83", "41 63", "63 52", "63 73", "61 51"],
  ...["42 54", "53 63", "52 72", "82 82", "62 73", "83 73"],
  ...["62 63", "62 73", "72 84", "62 64", "92 93", "62 84"],
  ...["62 64", "82 93", "63 64", "62 84", "62 53", "93 73"],
  ...["92 83", "72 93", "82 84", "62 93", "52 63", "62 73"],
  ...["52 63", "72 73", "62 72", "61 72", "32 73", "72 83"],
];

const remarks: Readonly<Record<number, string>> = {
  4: "The first one wanted gravy.",
  27: "Both good. My children would eat either.",
  46: "One of them was dry at the edge.",
};

/** Minutes for one diner: two cups of two questions each. */
const minutesATurn = 3.9;

/** Q12 from plan to opened key: how well two cups are liked, and whether they are too dry or too juicy. */
export function likingDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q12", packet, newEventId);
  return [
    ...lockActs(lock, newEventId, { drafted: "8:14", locked: "8:39" }),
    ...paperActs(newEventId, "8:42"),
    ...plannedSittings(plan, minutesATurn).flatMap((sitting) => {
      const cups = cupsOf(lock, sitting.tray);
      const product = (code: string) => cups.find((cup) => cup.code === code)?.product ?? "";
      const own = said[sitting.tray - 1]?.split(" ") ?? [];
      const remark = remarks[sitting.tray];
      return ballots.marks(remark === undefined ? sitting : { ...sitting, remark }, (code, question) =>
        Number(own[order.indexOf(product(code))]?.[questions.indexOf(question)]),
      );
    }),
    ...endActs(lock, newEventId, { closed: "13:44", revealed: "13:47", note: "" }),
  ];
}
