import type { Interval } from "../model/interval.ts";
import type { ChewResult, GainDifference } from "../model/result-chew.ts";
import { chewWords as words } from "../words/en/chew.ts";
import { weighingWords } from "../words/en/weighing.ts";
import { points } from "../words/number.ts";
import type { WordTable } from "./describe.ts";
import { boundsOf, bracketsOf, cellOf, reachOf, type WeighingText } from "./describe-ledger.ts";

/** The report of chewed and weighed portions in words. */
export function describeChew(result: ChewResult): WeighingText {
  const people = new Set(result.panelists.map(({ panelist }) => panelist)).size;
  const portions = result.panelists.reduce((all, each) => all + each.portions, 0);
  return {
    heading: words.heading(people, portions),
    found: [...foundIn(result), ...controlText(result)],
    tables: [meansTable(result), personsTable(result)],
    notShown: [
      words.meaning,
      ...(result.unit === "panelist" ? [words.unit.panelist] : []),
      ...result.warnings.map(words.warning),
      ...(result.products.length > 2 ? [words.severalCompared(result.products.length)] : []),
    ],
  };
}

function foundIn(result: ChewResult): string[] {
  const differences = result.differences.filter(({ percentagePoints }) => percentagePoints.estimate !== null);
  if (differences.length > 0) return differences.flatMap((difference) => comparedText(result, difference));
  const mean = result.means.find(({ product }) => product === result.products[0]);
  const estimate = mean?.gainPercent.estimate ?? null;
  return mean && estimate !== null
    ? [words.alone(mean.product, estimate, boundsOf(mean.gainPercent))]
    : [words.nothing];
}

const comparedText = (result: ChewResult, difference: GainDifference): string[] => {
  const { found, means, grams, ratio, matters, test } = comparisonText(result, difference);
  return [found, ...means, ...grams, ...ratio, ...matters, ...test];
};

/** Too few people, or portions of one person, for more than numbers. */
const isVerdict = ({ warnings }: ChewResult): boolean =>
  !warnings.some(({ what }) => what === "few-people" || what === "few-portions");

/** One comparison in sentences: what was found, how large it is, and by which test. */
export function comparisonText(
  result: ChewResult,
  difference: GainDifference,
): { found: string } & Record<"means" | "grams" | "ratio" | "matters" | "test", string[]> {
  const { first, second, percentagePoints, grams, test, design, units } = difference;
  const bounds = boundsOf(percentagePoints);
  const verdict = isVerdict(result);
  const alone = result.unit === "portion";
  const points = percentagePoints.estimate ?? 0;
  const [one, other] = [first, second].map((name) => result.means.find(({ product }) => product === name)?.gainPercent);
  return {
    found: words.found({ first, second, points, bounds, verdict, alone }),
    means:
      one?.estimate == null || other?.estimate == null
        ? []
        : [words.bothMeans({ product: first, percent: one.estimate }, { product: second, percent: other.estimate })],
    grams: grams.estimate === null ? [] : [words.grams(grams.estimate, boundsOf(grams))],
    ratio: bounds ? ratioText(difference, one) : [],
    matters:
      result.matters === null || !bounds || !verdict
        ? []
        : [weighingWords.matters[reachOf(bounds, result.matters)](result.matters)],
    test: test ? [words.test(design, units, test.df, test.pValue)] : [],
  };
}

/** How many times as much: only of two gains, and of a first one that can be told from none. */
function ratioText({ first, second, ratio }: GainDifference, gained: Interval | undefined): string[] {
  const ends = boundsOf(ratio);
  if (ratio.estimate !== null && ends)
    return ratio.estimate > 0 ? [words.ratio(first, second, ratio.estimate, ends)] : [];
  const { low, high } = gained ?? {};
  return low != null && high != null && low <= 0 && high >= 0 ? [words.noRatio(first)] : [];
}

export function controlText({ control, means }: ChewResult): string[] {
  const found = means.find(({ product }) => product === control)?.gainPercent;
  return control === null || found?.estimate == null ? [] : [words.control(control, found.estimate, boundsOf(found))];
}

const { none } = weighingWords.tables;
const plain = (value: number | null, decimals: number): string => (value === null ? none : points(value, decimals));

function meansTable(result: ChewResult): WordTable {
  return {
    caption: words.tables.means,
    columns: words.tables.meansColumns,
    rows: result.means.map(({ product, gainPercent, gainGrams, seconds, panelists, portions }) => [
      ...[product, cellOf(gainPercent), cellOf(gainGrams), plain(seconds, 1), String(panelists), String(portions)],
    ]),
    note: bracketsOf(result.means.flatMap(({ gainPercent, gainGrams }) => [gainPercent, gainGrams])),
  };
}

function personsTable({ panelists }: ChewResult): WordTable {
  return {
    caption: words.tables.persons,
    columns: words.tables.personsColumns,
    rows: panelists.map(({ panelist, product, portions, gainPercent, gainGrams, seconds }) => [
      ...[panelist, product, plain(gainPercent, 1), plain(gainGrams, 2), plain(seconds, 1), String(portions)],
    ]),
    note: "",
  };
}
