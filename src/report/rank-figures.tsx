import type { RankResult } from "../model/result.ts";
import { IntervalRows } from "../ui/interval-picture.tsx";
import { RankDots } from "../ui/rank-picture.tsx";
import { report } from "../words/en/report.ts";
import { partTableId } from "./choice-figures.tsx";
import type { Figure } from "./figures.tsx";

const words = report.rank;

/** Pictures of a ranking: everybody's ranks, and the differences of the rank sums pair by pair. */
export function rankFigures(result: RankResult): Figure[] {
  const { sums, people, panelists } = result;
  if (people === 0) return [];
  const whole = panelists.filter(({ ranks }) => !ranks.includes(null));
  const products = sums.map(({ product, sum, mean }, at) => ({
    ...{ name: product, text: words.picture.sum(sum), mean },
    ranks: whole.flatMap(({ ranks }) => ranks[at] ?? []),
  }));
  const dots: Figure = {
    id: "ranks",
    tableId: "ranks-table",
    name: words.picture.name,
    caption: () => words.picture.caption(people),
    draw: (width, ids) => <RankDots figures={{ products }} width={width} {...ids} />,
    table: <RankTable result={result} />,
  };
  return result.pairs.length === 0 ? [dots] : [dots, differencesOf(result)];
}

function differencesOf({ pairs, confidence, alpha }: RankResult): Figure {
  const rows = pairs.map(({ first, second, difference, low, high, pValueAdjusted }) => ({
    ...{ id: `${first} ${second}`, label: words.pairs.pair(first, second) },
    text: words.differences.row(difference, low, high, pValueAdjusted, alpha),
    ...{ estimate: difference, low, high },
  }));
  return {
    id: "rank-pairs",
    tableId: partTableId("rank-pairs"),
    name: words.differences.name,
    caption: () => words.differences.caption(confidence),
    draw: (width, ids) => <IntervalRows figures={{ rows, range: null, zero: true }} width={width} {...ids} />,
    table: null,
  };
}

/** Everybody's ranks, under the pseudonym of the seat, and the rank sums. */
function RankTable({ result: { products, panelists, sums } }: { result: RankResult }) {
  const { panelist, total, none } = words.picture;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{panelist}</th>
          {products.map((product) => (
            <th scope="col" class="number" key={product}>
              {product}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {panelists.map((person) => (
          <tr key={person.panelist}>
            <th scope="row">{person.panelist}</th>
            {products.map((product, at) => (
              <td class="number" key={product}>
                {person.ranks[at] ?? none}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{total}</th>
          {sums.map(({ product, sum }) => (
            <td class="number" key={product}>
              {sum}
            </td>
          ))}
        </tr>
      </tfoot>
    </table>
  );
}
