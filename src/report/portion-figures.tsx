import { boundsOf } from "../analysis/describe-ledger.ts";
import type { PortionsResult } from "../model/result.ts";
import type { GainDifference } from "../model/result-chew.ts";
import { IntervalRows } from "../ui/interval-picture.tsx";
import type { MarkFigures } from "../ui/mark-layout.ts";
import { Marks } from "../ui/mark-picture.tsx";
import { roundRange } from "../ui/number-axis.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { partTableId } from "./choice-figures.tsx";
import type { Figure } from "./figures.tsx";

const words = report.portions.picture;

/** Pictures of chewed portions: everybody's mean gains joined, or one person's means; and differences of several products. */
export function portionFigures(result: PortionsResult): Figure[] {
  const { masses, judgments } = result;
  if (judgments === 0) return [];
  const differences = masses.differences.filter(({ percentagePoints }) => percentagePoints.estimate !== null);
  const people = masses.unit === "panelist" ? peopleFigure(result, differences) : meansFigure(result);
  return differences.length > 1 || (masses.unit === "portion" && differences.length > 0)
    ? [people, differencesFigure(result, differences)]
    : [people];
}

function peopleFigure({ masses, products }: PortionsResult, differences: readonly GainDifference[]): Figure {
  const names = [...new Set(masses.panelists.map(({ panelist }) => panelist))];
  const panelists = names.map((panelist) => ({
    panelist,
    values: products.map(
      (product) =>
        masses.panelists.find((each) => each.panelist === panelist && each.product === product)?.gainPercent ?? null,
    ),
  }));
  const meanOf = (product: string) => masses.means.find((mean) => mean.product === product)?.gainPercent.estimate;
  const [pair] = differences.length === 1 ? differences : [];
  const bounds = pair ? boundsOf(pair.percentagePoints) : null;
  const figures: MarkFigures = {
    products: products.map((name) => ({ name, mean: meanOf(name) ?? null, text: words.mean(meanOf(name) ?? null) })),
    panelists: panelists.filter(({ values }) => values.some((value) => value !== null)),
    range: roundRange(panelists.flatMap(({ values }) => values.filter((value) => value !== null))),
    ends: null,
    difference:
      pair && bounds
        ? {
            from: products.indexOf(pair.first),
            label: reader.scale.minusOf(pair.second, pair.first),
            text: words.difference(pair.percentagePoints.estimate ?? 0, bounds),
            ...{ estimate: pair.percentagePoints.estimate ?? 0, low: bounds.low, high: bounds.high },
          }
        : null,
  };
  return {
    id: "gains",
    tableId: partTableId("gains-by-person"),
    name: words.name,
    caption: () => words.caption(figures.panelists.length, figures.difference !== null),
    draw: (width, ids) => <Marks figures={figures} width={width} {...ids} />,
    table: null,
  };
}

/** Of one person there are no pairs to join: the means of the portions, each with its interval. */
function meansFigure({ masses, confidence }: PortionsResult): Figure {
  const rows = masses.means.map(({ product, gainPercent }) => ({
    ...{ id: product, label: product, text: words.row(gainPercent.estimate, boundsOf(gainPercent), "percent") },
    ...{ estimate: gainPercent.estimate, low: gainPercent.low, high: gainPercent.high },
  }));
  return {
    id: "gains",
    tableId: partTableId("gains"),
    name: words.name,
    caption: () => words.captionMeans(confidence),
    draw: (width, ids) => <IntervalRows figures={{ rows, range: null, zero: true }} width={width} {...ids} />,
    table: null,
  };
}

function differencesFigure({ masses }: PortionsResult, differences: readonly GainDifference[]): Figure {
  const rows = differences.map(({ first, second, percentagePoints }) => ({
    ...{ id: second, label: reader.scale.minusOf(second, first) },
    text: words.row(percentagePoints.estimate, boundsOf(percentagePoints), "points"),
    ...{ estimate: percentagePoints.estimate, low: percentagePoints.low, high: percentagePoints.high },
  }));
  const confidence = differences[0]?.percentagePoints.confidence ?? masses.confidence;
  return {
    id: "gain-differences",
    tableId: partTableId("gains"),
    name: words.differences,
    caption: () => words.captionDifferences(confidence),
    draw: (width, ids) => <IntervalRows figures={{ rows, range: null, zero: true }} width={width} {...ids} />,
    table: null,
  };
}
