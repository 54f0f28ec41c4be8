import type { Caveat, Result } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { Description } from "./describe.ts";

/** What still holds where every cup held one food: how the study went. Nothing of what products are like, or liked. */
const ofTheWork = new Set<Caveat["what"]>([
  ...(["key-mismatch", "server-knew", "below-plan", "people-below-plan", "trays-below-plan", "orders-uneven"] as const),
  ...(["person-once", "incomplete-panelists", "rankings-incomplete", "device-kinds-mixed", "lengths-mixed"] as const),
]);

type Said = Pick<Description, "verdict" | "size">;

/**
 * The report of a blank study: the same numbers, and sentences that speak of the study instead of its products.
 *
 * Takes    said: what the report of any other study would say; sentence: of a caveat
 */
export function describeBlank(
  result: Result,
  said: Description,
  words: ReportWords,
  sentence: (caveat: Caveat) => string,
): Description {
  return {
    ...said,
    ...verdictOf(result, said, words),
    test: words.blank.test(words.methods[result.method]),
    agreed: result.outcome === "reached" ? words.blank.look : "",
    caveats: [words.blank.limits, ...result.caveats.filter(({ what }) => ofTheWork.has(what)).map(sentence)],
  };
}

/** A difference where there can be none is a fault, or luck; anything else is as it must be. */
function verdictOf({ outcome }: Result, { verdict, size }: Said, { blank }: ReportWords): Said {
  switch (outcome) {
    case "reached":
      return { verdict: blank.found, size: blank.luck };
    case "not-reached":
    case "within-limit":
    case "not-within-limit":
      return { verdict: blank.chance, size: blank.good };
    case "far-below-chance":
      return { verdict: blank.below, size: blank.luck };
    // too few answers, or a key that does not match: what is said of that holds here too
    case "too-few":
    case "withheld":
      return { verdict, size };
  }
}
