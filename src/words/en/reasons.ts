import type { Body } from "../../model/event.ts";

/** Why something went off the plan: the lead picks by these words, and the report repeats them. */
export const voidReasons: Record<Body<"ballot-voided">["reason"], string> = {
  "wrong-tray": "wrong tray",
  "sample-dropped": "a sample was dropped",
  talked: "people talked",
  "outside-window": "the food was outside its window",
  spoiled: "the ballot was spoiled",
  other: "another reason",
};
export const spareReasons: Record<Body<"spare-served">["reason"], string> = {
  replaces: "to replace a tray",
  "extra-person": "for one more person",
  other: "for another reason",
};
