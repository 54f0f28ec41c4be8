import { problem } from "../model/problem.ts";
import type { RankRow, StudyRecord } from "../model/record.ts";
import type { Caveat, RankResult } from "../model/result.ts";
import type { RankStatistics } from "../model/result-rank.ts";
import { caveatsOfRank, caveatsOfStudy, personOnce, tooFewAnswers } from "./caveats.ts";
import { type MarkedOrder, markedOrders, onePerSeat, ordersServed, servedOn } from "./marking.ts";
import { mean } from "./moments.ts";
import { rankStatistics } from "./rank.ts";
import { caveatsOfLiking } from "./steps-caveats.ts";
import { studyPart } from "./study-part.ts";

/** As `analyse`, for a ranking: one order a person. */
export function analyseRank(record: StudyRecord, app: string): RankResult {
  const { plan } = record;
  const { kept, leftOut } = onePerSeat(markedOrders(record));
  const marked = kept.toSorted((one, other) => one.seat - other.seat);
  const ids = plan.products.map(({ id }) => id);
  const { name, least, most, predicted, liking } = plan.ranking;
  const statistics = rankStatistics({
    ...{ alpha: plan.alpha, property: name, least, most, keyMatches: record.keyMatches },
    products: plan.products.map((product) => product.name),
    predicted: predicted.map((id) => ids.indexOf(id)),
    panelists: marked.map(({ seat, ranked }) => ({
      panelist: `seat ${seat}`,
      ranks: ids.map((id) => ranked.indexOf(id) + 1),
    })),
    positions: positionsOf(marked),
  });
  const orders = ordersServed(record, marked).map((order) => ({
    order,
    judgments: marked.filter((answer) => answer.order === order).length,
    correct: null,
  }));
  const served = servedOn(marked);
  const studyCaveats = caveatsOfStudy(
    record,
    served,
    tooFewAnswers(record, marked.length),
    orders.map(({ judgments }) => judgments),
  );
  return {
    ...{ v: 1, app },
    study: studyPart(record, served, app),
    ...statistics,
    orders,
    caveats: [
      ...studyCaveats,
      ...personOnce(leftOut),
      ...caveatsOfRank(statistics, plan.standsFor, liking),
      ...caveatsOfLiking(plan, liking && statistics.judgments > 0),
    ],
    departures: record.departures,
  };
}

/** Mean rank of what was served in each place, as a check. */
function positionsOf(marked: readonly MarkedOrder[]): RankStatistics["positions"] {
  const places = marked[0]?.samples.length ?? 0;
  return Array.from({ length: places }, (_, at) => ({
    position: at + 1,
    judgments: marked.length,
    mean: mean(marked.map(({ samples, ranked }) => ranked.indexOf(samples[at]?.product ?? "") + 1)),
  }));
}

/** What is asked of ranks that came without a study; `predicted`: names of products from least to most, or none. */
export type AskedOfRanks = { alpha: number; predicted: readonly string[] };

/**
 * The result of ranks that came without a study.
 *
 * Takes    rows: products in the order in which they first appear; a product that somebody did not rank is missing there
 * Throws   what `rankStatistics` throws, and Problem "analysis/predicted-order" for an order that does not name every
 *          product once
 */
export function resultOfRankRows(
  { alpha, predicted }: AskedOfRanks,
  rows: readonly RankRow[],
  app: string,
): RankResult {
  const products = [...new Set(rows.map(({ product }) => product))];
  const people = new Map<string, Map<string, number | null>>();
  for (const { panelist, product, rank } of rows) {
    people.set(panelist, (people.get(panelist) ?? new Map()).set(product, rank));
  }
  const statistics = rankStatistics({
    ...{ alpha, property: "", least: "", most: "", products, keyMatches: true, positions: [] },
    predicted: placesOf(predicted, products),
    panelists: [...people].map(([panelist, ranks]) => ({
      panelist,
      ranks: products.map((product) => ranks.get(product) ?? null),
    })),
  });
  const caveats: Caveat[] = caveatsOfRank(statistics, "");
  return { v: 1, app, study: null, ...statistics, orders: [], caveats, departures: [] };
}

function placesOf(predicted: readonly string[], products: readonly string[]): number[] {
  const places = predicted.map((name) => products.indexOf(name));
  const whole = places.length === 0 || products.every((_, at) => places.filter((place) => place === at).length === 1);
  if (whole && places.length <= products.length) return places;
  throw problem("analysis/predicted-order", { predicted: predicted.join(", "), products: products.join(", ") });
}
