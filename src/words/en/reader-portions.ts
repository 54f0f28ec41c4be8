import type { Chew } from "../../model/chew-plan.ts";
import { nbsp } from "../number.ts";
import { number, plural } from "./reader-parts.ts";

const mouths: Record<Chew["mouth"], (waited: number) => string> = {
  "rinsed-and-waited": (waited) =>
    `Before each portion: mouth rinsed, then ${plural(waited, "second", "seconds")} of waiting`,
  rinsed: () => "Before each portion: mouth rinsed",
  dried: () => "Before each portion: mouth dried with a paper cloth",
};

/** How portions were chewed and weighed: labels and values of the test report. */
export const chewed = {
  panel: (planned: number, people: number, portions: number) =>
    `${plural(planned, "person", "people")} planned, ${plural(people, "person", "people")} with ${plural(portions, "portion", "portions")} counted`,
  sought: (matters: number | null) =>
    matters === null
      ? "No smallest difference that matters was named"
      : `Smallest difference that matters: ${number(matters)} percentage points`,
  scatter: ({ deviation, from }: NonNullable<Chew["scatter"]>) =>
    `People were supposed to scatter in it by ${number(deviation)} percentage points${from.trim() === "" ? "" : ` (${from.trim()})`}`,
  noDirection: "Two-sided: no direction was presumed",
  chewing: "Chewing",
  chewingIs: ({ seconds, mouth, waitSeconds, rinseGrams }: Chew): string[] => [
    `${plural(seconds, "second", "seconds")} at one’s own pace without swallowing, as planned; the tablet kept the real time`,
    mouths[mouth](waitSeconds),
    rinseGrams === null
      ? "Nothing was rinsed into the cup"
      : `Rinsed with ${number(rinseGrams)}${nbsp}g of water into the same cup, as planned`,
  ],
  weighing: "Weighing",
  /** `timed` of `weighed`: closed cups of which it is known how long they waited. */
  weighingIs: (
    { toleranceGrams, balanceStep, weighWithinSeconds }: Chew,
    { timed, weighed }: { timed: number; weighed: number },
  ): string[] => [
    `Portions within ${number(toleranceGrams)}${nbsp}g of the planned mass, as planned`,
    balanceStep === "" ? "Step of the balance not recorded" : `Balance in steps of ${balanceStep}${nbsp}g`,
    `Closed cups weighed within ${plural(weighWithinSeconds, "second", "seconds")}, as planned; ${timed === 0 ? "not timed" : `timed for ${timed} of ${weighed} from when the weighing page knew that the portion was chewed: no two devices’ clocks are compared, and a tablet that tells it late makes a wait look shorter`}`,
  ],
  control: "Inert portion",
  model: {
    panelist: "Each person’s portions of a product are averaged; the means are compared within people (paired t test)",
    portion: "One person: portions are compared as they are (Welch’s t test), and the result is about that person",
  },
};
