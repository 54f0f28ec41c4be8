import { ledgerResult } from "../analysis/ledger.ts";
import { refusalsOf } from "../analysis/ledger-check.ts";
import type { Claim } from "../model/claim.ts";
import type { LedgerResult } from "../model/result-ledger.ts";
import { shoppingWords as words } from "../words/en/organizer-shopping.ts";

/** A loss from raw to some step that a ledger of this kitchen measured, in percent of the raw mass, and where it stands. */
export type MeasuredLoss = { percent: number; from: string };

/** As much as the source's field holds. */
const longest = 300;

/** Was liquid added up to a step? What is left of the raw mass is then more than the loss leaves of it. */
const hadLiquid = ({ batches, steps }: LedgerResult, product: string, step: string): boolean =>
  batches
    .filter((batch) => batch.product === product)
    .some((batch) => batch.steps.slice(0, steps.indexOf(step) + 1).some(({ added }) => Number(added) > 0));

/** Losses in all ledgers of all claims, each the mean of a process's batches at a step to which no liquid was added. */
export function measuredLosses(claims: readonly Claim[]): MeasuredLoss[] {
  return claims.flatMap((claim) =>
    claim.measures.flatMap(({ name, weighed }) => {
      if (!weighed || refusalsOf(weighed).length > 0) return [];
      const own = weighed.products.map((each, at) => each.trim() || [claim.first, claim.second][at]?.trim() || "");
      const found = ledgerResult({ ...weighed, products: own }, 0.95, "");
      return found.means.flatMap(({ product, step, totalLoss }) => {
        const { estimate } = totalLoss.percent;
        if (hadLiquid(found, product, step)) return [];
        if (estimate === null || estimate < 0 || estimate > 95) return [];
        const from = words.taken(claim.title.trim(), name.trim(), product, step, totalLoss.batches).slice(0, longest);
        return [{ percent: Math.round(estimate * 10) / 10, from }];
      });
    }),
  );
}
