import { gramsOf, lastDigit } from "../model/grams.ts";
import type { Ledger } from "../model/ledger.ts";
import type { LedgerResult, LedgerWarning } from "../model/result-ledger.ts";
import { massOf } from "./ledger-check.ts";
import { protocolWarnings } from "./ledger-protocol.ts";

/** What limits the result of a ledger, as facts; words make sentences of them. */
export function ledgerWarnings(ledger: Ledger, found: Omit<LedgerResult, "warnings">): LedgerWarning[] {
  return [
    ...ledger.products.flatMap((product, at): LedgerWarning[] =>
      ledger.batches.filter((batch) => batch.product === at).length === 1 ? [{ what: "one-batch", product }] : [],
    ),
    ...found.differences.flatMap(
      ({ step, base, test, percentagePoints, firstBatches, secondBatches }): LedgerWarning[] => {
        const enough = Math.min(firstBatches, secondBatches) > 1 && percentagePoints.estimate !== null;
        return base === "raw" && enough && test === null ? [{ what: "no-scatter", step }] : [];
      },
    ),
    ...missing(ledger),
    ...ledger.steps.flatMap((step, at): LedgerWarning[] => {
      const ways = new Set(ledger.batches.map(({ weighings }) => weighings[at]?.blotted ?? "unknown"));
      return ways.has("blotted") && ways.has("not-blotted") ? [{ what: "blotted-differs", step }] : [];
    }),
    ...protocolWarnings(ledger),
    ...incompletePairs(ledger, found),
    ...coarse(ledger, found),
  ];
}

/** Steps at which a batch was not weighed though others were. */
function missing(ledger: Ledger): LedgerWarning[] {
  return ledger.batches.flatMap(({ product, name, weighings }) =>
    ledger.steps.flatMap((step, at): LedgerWarning[] =>
      massOf(weighings[at]) === null
        ? [{ what: "not-weighed", product: ledger.products[product] ?? "", batch: name, step }]
        : [],
    ),
  );
}

/** Some batches of two processes name a pair, but not all of them one that is whole. */
function incompletePairs({ batches, products }: Ledger, found: Omit<LedgerResult, "warnings">): LedgerWarning[] {
  const first = products[0] ?? "";
  const named = (product: number) => batches.some((batch) => batch.product === product && batch.pair.trim() !== "");
  return products.slice(1).flatMap((second, at): LedgerWarning[] => {
    const apart = found.differences.some((each) => each.second === second && each.design === "independent");
    return apart && (named(0) || named(at + 1)) ? [{ what: "pairs-incomplete", first, second }] : [];
  });
}

/** Twice the balance's step against the smallest raw mass, where that is more than a quarter of what is to be seen. */
function coarse(ledger: Ledger, found: Omit<LedgerResult, "warnings">): LedgerWarning[] {
  const weighings = ledger.batches.flatMap((batch) =>
    batch.weighings.flatMap((each) => (each && each.grams !== "" ? [each] : [])),
  );
  const raw = ledger.batches.flatMap(({ weighings: [first] }) => massOf(first) ?? []);
  if (raw.length === 0) return [];
  const typed = Math.max(...weighings.map(({ grams }) => lastDigit(grams)));
  const balanceStep = ledger.balanceStep === "" ? typed : gramsOf([ledger.balanceStep]);
  const grams = Math.min(...raw);
  const points = (100 * 2 * balanceStep) / grams;
  const seen = found.differences.findLast(({ base }) => base === "raw")?.percentagePoints.estimate ?? null;
  const effect = ledger.matters ?? (seen === null ? null : Math.abs(seen));
  if (effect === null || points <= effect / 4) return [];
  return [{ what: "coarse", balanceStep, grams, points, effect, sought: ledger.matters !== null }];
}
