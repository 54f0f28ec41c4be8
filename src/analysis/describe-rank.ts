import { leastForVerdict } from "../model/outcome.ts";
import type { RankResult } from "../model/result.ts";
import type { RankPair } from "../model/result-rank.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { RankFacts, RankPairFacts } from "../words/en/report-rank.ts";
import { pText } from "../words/number.ts";
import type { FamilyText, Part, Row } from "./describe.ts";

/** What is said of a ranking. */
export function rankWords(result: RankResult, words: ReportWords): FamilyText {
  const facts = factsOf(result);
  const withheld = result.outcome === "withheld";
  return {
    verdict: verdictOf(result, facts, words),
    size: withheld
      ? words.rank.size.withheld
      : facts.farthest
        ? words.rank.size.pair(facts, facts.farthest)
        : words.rank.size.none,
    agreed: agreedOf(result, words),
    meaning: withheld ? "" : words.rank.meaning(facts),
    chance: null,
    rows: rowsOf(result, words),
    attributes: [],
    parts: result.people === 0 ? [] : [sumsPart(result, words), ...pairsPart(result, words), placesPart(result, words)],
  };
}

function factsOf(result: RankResult): RankFacts {
  const { property, products, predicted, people, friedman, page, alpha, confidence, study, pairs } = result;
  const turned = pairs.map(turnedOf);
  return {
    ...{ property, products, predicted, people, test: friedman, page, alpha, confidence, leastForVerdict },
    pairs: turned.length,
    standOut: turned.filter(({ pValueAdjusted }) => pValueAdjusted <= alpha),
    farthest: turned.toSorted((one, other) => other.by - one.by)[0] ?? null,
    allowed: Math.max(0, ...turned.flatMap(({ low, high }) => [Math.abs(low), Math.abs(high)])),
    most: people * (products.length - 1),
    planned: study !== null,
  };
}

/** A pair with the higher rank sum first. */
function turnedOf({ first, second, difference, low, high, pValueAdjusted, above, below }: RankPair): RankPairFacts {
  const common = { pValueAdjusted, apart: above + below };
  // 0 less a number, so that no minus zero comes out
  return difference < 0
    ? { ...common, higher: second, lower: first, by: 0 - difference, low: 0 - high, high: 0 - low, above: below }
    : { ...common, higher: first, lower: second, by: difference, low, high, above };
}

function verdictOf({ outcome, test }: RankResult, facts: RankFacts, { rank }: ReportWords): string {
  const { verdict } = rank;
  if (outcome === "withheld") return verdict.withheld;
  if (test !== "ok") return verdict.noTest(test);
  if (outcome === "reached" || outcome === "not-reached") return verdict[outcome](facts);
  return verdict.tooFewPeople(facts);
}

function agreedOf({ study, outcome }: RankResult, { agreed, rank }: ReportWords): string {
  if (!study) return agreed.noStudy;
  if (outcome === "reached") return rank.agreed.reached(study.ifYes);
  if (outcome === "not-reached") return rank.agreed["not-reached"](study.ifNo);
  return agreed[outcome](study.ifYes, study.ifNo);
}

function rowsOf(result: RankResult, { rank }: ReportWords): Row[] {
  const { rows, values } = rank;
  const { people, sharing, friedman, page, alpha, criticalDifference, pairsExact } = result;
  const list: Row[] = [{ id: "people", label: rows.people, ...values.count(people) }];
  if (sharing > 0) list.push({ id: "sharing", label: rows.sharing, ...values.count(sharing) });
  if (page) {
    const { value, expected, most, pValue, exact } = page;
    list.push(
      { id: "page", label: rows.page, ...values.page(value, expected, most) },
      { id: "pagePValue", label: rows.pagePValue(exact), ...values.p(pValue, alpha) },
    );
  }
  if (!friedman) return list;
  const { chiSquare, df, pValue, exact, pValueChiSquare, concordance } = friedman;
  list.push(
    { id: "friedman", label: rows.friedman, ...values.friedman(chiSquare, df) },
    { id: "pValue", label: rows.pValue(exact), ...values.p(pValue, alpha) },
  );
  if (exact) list.push({ id: "pValueChiSquare", label: rows.approximate, ...values.p(pValueChiSquare, alpha) });
  list.push(
    { id: "concordance", label: rows.concordance, ...values.concordance(concordance) },
    { id: "critical", label: rows.critical, ...values.critical(criticalDifference, alpha, pairsExact) },
  );
  return list;
}

function sumsPart({ sums, confidence, least, most }: RankResult, { rank }: ReportWords): Part {
  const words = rank.sums;
  return {
    id: "rank-sums",
    heading: words.heading,
    sentences: [words.lead(least, most)],
    table: {
      caption: words.caption,
      columns: words.columns(confidence),
      rows: sums.map(({ product, sum, mean, low, high }) => [
        product,
        String(sum),
        mean === null ? words.none : words.mean(mean),
        low === null || high === null ? words.none : words.range(low, high),
      ]),
      note: words.note,
    },
  };
}

function pairsPart({ pairs, confidence, alpha, criticalDifference }: RankResult, { rank }: ReportWords): Part[] {
  const words = rank.pairs;
  if (pairs.length === 0) return [];
  const rows = pairs.map(({ first, second, difference, low, high, pValueAdjusted, above, below, shared }) => [
    words.pair(first, second),
    words.number(difference),
    words.range(low, high),
    pText(pValueAdjusted, alpha),
    words.above(above, above + below, shared),
  ]);
  const table = { caption: words.caption, columns: words.columns(confidence), rows, note: words.note };
  const sentences = [criticalDifference === null ? words.noneCounts : words.counts(criticalDifference)];
  return [{ id: "rank-pairs", heading: words.heading, sentences, table }];
}

function placesPart({ sums }: RankResult, { rank }: ReportWords): Part {
  const words = rank.places;
  const ranks = [...new Set(sums.flatMap(({ places }) => places.map((place) => place.rank)))].sort((a, b) => a - b);
  const rows = sums.map(({ product, places }) => [
    product,
    ...ranks.map((rank) => String(places.find((place) => place.rank === rank)?.people ?? 0)),
  ]);
  const columns = [words.product, ...ranks.map(String)];
  return {
    id: "rank-places",
    heading: words.heading,
    sentences: [words.lead],
    table: { caption: words.caption, columns, rows, note: words.note },
  };
}
