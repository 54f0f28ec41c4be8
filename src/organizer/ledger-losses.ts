import { ledgerResult } from "../analysis/ledger.ts";
import { refusalsOf } from "../analysis/ledger-check.ts";
import type { Claim } from "../model/claim.ts";
import { shoppingWords as words } from "../words/en/organizer-shopping.ts";

/** A loss from raw to some step that a ledger of this kitchen measured, in percent of the raw mass, and where it stands. */
export type MeasuredLoss = { percent: number; from: string };

/** As much as the source's field holds. */
const longest = 300;

/** Losses in all ledgers of all claims, each the mean of a process's batches at a step. */
export function measuredLosses(claims: readonly Claim[]): MeasuredLoss[] {
  return claims.flatMap((claim) =>
    claim.measures.flatMap(({ name, weighed }) => {
      if (!weighed || refusalsOf(weighed).length > 0) return [];
      const own = weighed.products.map((each, at) => each.trim() || [claim.first, claim.second][at]?.trim() || "");
      return ledgerResult({ ...weighed, products: own }, 0.95, "").means.flatMap(({ product, step, totalLoss }) => {
        const { estimate } = totalLoss.percent;
        if (estimate === null || estimate < 0 || estimate > 95) return [];
        const from = words.taken(claim.title.trim(), name.trim(), product, step, totalLoss.batches).slice(0, longest);
        return [{ percent: Math.round(estimate * 10) / 10, from }];
      });
    }),
  );
}
