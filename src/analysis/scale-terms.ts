import { type StudyRecord, servedKey } from "../model/record.ts";
import type { Caveat } from "../model/result.ts";
import type { AttributeResult, ServedTerm } from "../model/result-scale.ts";
import { leadingTest } from "./mixed-lead.ts";
import type { ServedRow } from "./mixed-terms.ts";

/** What a plan or a file varies beside products, and what a reader must know of how that was taken. */

/**
 * The terms that a locked plan varies: sessions where there are several, the place served where a product stands in more
 * than one, batches where a product comes from more than one.
 */
export function termsOfPlan(record: StudyRecord, sessions: readonly string[]): ServedTerm[] {
  const samples = servedKey(record).flatMap(({ samples }) =>
    samples.map(({ product, batch }, at) => ({ product, batch, place: at + 1, session: "" })),
  );
  return [...(sessions.length > 1 ? (["session"] as const) : []), ...varied(samples)];
}

/** The terms that a file of values names in more than one way. */
export const termsOfFile = (values: readonly Omit<ServedRow, "value" | "panelist">[]): ServedTerm[] => [
  ...(new Set(values.flatMap(({ session }) => (session === "" ? [] : [session]))).size > 1
    ? (["session"] as const)
    : []),
  ...varied(values),
];

function varied(samples: readonly Omit<ServedRow, "value" | "panelist">[]): ServedTerm[] {
  const several = (of: (sample: (typeof samples)[number]) => string) => {
    const levels = new Map<string, Set<string>>();
    for (const sample of samples) {
      const level = of(sample);
      if (level !== "") levels.set(sample.product, (levels.get(sample.product) ?? new Set()).add(level));
    }
    return [...levels.values()].some(({ size }) => size > 1);
  };
  return [
    ...(several(({ place }) => String(place ?? "")) ? (["position"] as const) : []),
    ...(several(({ batch }) => batch) ? (["batch"] as const) : []),
  ];
}

/**
 * What of the way the first property was analyzed a reader has to know: that the place served is no term of what leads, and
 * of which batches the test speaks where there are enough of them to count as drawn from many.
 *
 * Takes    places: were they written down at all
 */
export function caveatsOfLead(attributes: readonly AttributeResult[], places: boolean): Caveat[] {
  const list: Caveat[] = [];
  const led = attributes.find((attribute) => leadingTest(attribute) !== null);
  const inLead = led?.leads === "mixed" && led.mixed?.terms.some(({ term }) => term === "position");
  // of values from elsewhere nobody here knows in which places they were served
  if (led && places && !inLead) {
    list.push({ what: "position-left-out", balanced: led.blocks?.balanced ?? true });
  }
  const [first] = attributes;
  const mixed = first?.mixed;
  if (first && mixed && mixed.batches !== null && first.outcome !== "withheld") {
    const { fValue, numeratorDf, denominatorDf, pValue } = mixed;
    list.push({
      what: "batches-drawn",
      leads: first.leads,
      fewest: mixed.batches,
      seen: (mixed.variances.batch ?? 0) > 0,
      ...{ fValue, numeratorDf, denominatorDf, pValue },
    });
  }
  return list;
}
