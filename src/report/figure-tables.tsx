import type { Interval } from "../model/interval.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { reader } from "../words/en/reader.ts";
import { percent, points, wholeNumber } from "../words/number.ts";

/** The shares of everybody asked, as rows. */
export function ShareTable({ rows }: { rows: { id: string; label: string; count: number; share: Interval }[] }) {
  const { heads } = reader.pictures.shares;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{heads.answer}</th>
          <th scope="col" class="number">
            {heads.count}
          </th>
          <th scope="col" class="number">
            {heads.share}
          </th>
          <th scope="col" class="number">
            {heads.range}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id, label, count, share }) => (
          <tr key={id}>
            <th scope="row">{label}</th>
            <td class="number">{wholeNumber(count)}</td>
            <td class="number">{share.estimate === null ? "" : percent(share.estimate)}</td>
            <td class="number">
              {share.low === null || share.high === null ? "" : `${percent(share.low)} to ${percent(share.high)}`}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Every panelist's marks of one attribute, under the pseudonym of the seat, and the means. */
export function MarkTable(props: { products: readonly string[]; attribute: AttributeResult; decimals: number }) {
  const { products, attribute, decimals } = props;
  const { heads } = reader.pictures.marks;
  const shown = (value: number | null | undefined): string =>
    value === null || value === undefined ? heads.none : points(value, decimals);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{heads.panelist}</th>
          {products.map((product) => (
            <th scope="col" class="number" key={product}>
              {product}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {attribute.panelists.map(({ panelist, values }) => (
          <tr key={panelist}>
            <th scope="row">{panelist}</th>
            {products.map((product, at) => (
              <td class="number" key={product}>
                {shown(values[at])}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{heads.mean}</th>
          {products.map((product) => (
            <td class="number" key={product}>
              {shown(attribute.means.find((mean) => mean.product === product)?.estimate)}
            </td>
          ))}
        </tr>
      </tfoot>
    </table>
  );
}
