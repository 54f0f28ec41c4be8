import type { Moment } from "../../model/attribute.ts";

/** A moment at the end of a phrase. `after`: how seconds are said there. */
export function momentPhrase(moment: Moment, after: (seconds: number) => string): string {
  switch (moment.at) {
    case "first-bite":
      return "at the first bite";
    case "after":
      return after(moment.seconds);
    case "chews":
      return `after ${moment.chews} ${moment.chews === 1 ? "chew" : "chews"}`;
    case "before-swallowing":
      return "just before swallowing";
  }
}
