import type { AttributeText, WordTable } from "../analysis/describe.ts";
import { unevenOf } from "../analysis/uneven.ts";
import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { pText, statistic } from "../words/number.ts";
import { pairsTableId } from "./figures.tsx";

/** People who are named one by one; more of them are counted. */
const mostNamed = 20;

/** Pairs and means of one attribute, as `describe` words them, and who left what unmarked. */
export function AttributeTables(props: { attribute: AttributeResult; text: AttributeText; at: number }) {
  const { attribute, text, at } = props;
  const { contrasts, means } = text;
  return (
    <>
      {contrasts && contrasts.rows.length > 0 && <Worded table={contrasts} strong={1} id={pairsTableId(at)} />}
      {means && means.rows.length > 0 && <Worded table={means} strong={2} />}
      {text.lead !== "" && <p class="fine part">{text.lead}</p>}
      {attribute.incomplete.length > 0 && (
        <p class="fine part">
          {attribute.incomplete.length > mostNamed
            ? reader.large.incomplete(attribute.incomplete.length)
            : reader.scale.incomplete(attribute.incomplete)}
        </p>
      )}
    </>
  );
}

/** A table in words. `strong`: the column that the others explain; 0 where none does. */
export function Worded({ table, strong, id }: { table: WordTable; strong: number; id?: string }) {
  const [first, ...columns] = table.columns;
  return (
    <div class="part" {...(id ? { id } : {})}>
      <table class="figures">
        <caption>{table.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{first}</th>
            {columns.map((column) => (
              <th scope="col" class="number" key={column}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map(([name, ...cells]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {cells.map((cell, at) => (
                <td class={at + 1 === strong ? "number strong" : "number"} key={columns[at]} data-head={columns[at]}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {table.note !== "" && <p class="fine">{table.note}</p>}
    </div>
  );
}

/** The F tests behind one attribute: products with panelists as blocks, and panelists themselves. */
export function Tests({
  result,
  attribute,
  text,
}: {
  result: ScaleResult;
  attribute: AttributeResult;
  text: AttributeText;
}) {
  const words = reader.scale.tests;
  if (attribute.terms.length === 0) return null;
  return (
    <>
      <table class="figures">
        <caption>{words.caption(text.heading)}</caption>
        <thead>
          <tr>
            <th scope="col">{words.term}</th>
            {[words.df, words.f, words.p].map((head) => (
              <th scope="col" class="number" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {testRows(attribute).map(({ label, fValue, numeratorDf, denominatorDf, pValue }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td class="number" data-head={words.df}>
                {words.dfIs(numeratorDf, denominatorDf)}
              </td>
              <td class="number" data-head={words.f}>
                {statistic(fValue)}
              </td>
              <td class="number" data-head={words.p}>
                {pText(pValue, result.alpha)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {attribute.mixed ? (
        <p>
          {words
            .mixed({
              ...attribute,
              uneven: unevenOf(attribute),
              mixed: attribute.mixed,
              alpha: result.alpha,
              decimals: text.decimals,
              unit: unitOf(attribute.form),
            })
            .join(" ")}
        </p>
      ) : (
        <p>{words.lead({ ...attribute, uneven: unevenOf(attribute) })}</p>
      )}
      {attribute.ranks && <p>{report.steps.ranks(attribute.ranks, result.alpha)}</p>}
    </>
  );
}

/** The classical tests, then those of the mixed model. */
function testRows({ terms, mixed }: AttributeResult) {
  const words = reader.scale.tests;
  return [
    ...terms.map((test) => ({ ...test, label: words.terms[test.term] })),
    ...(mixed ? [{ ...mixed, label: words.mixedProduct }] : []),
    ...(mixed?.terms ?? []).map((test) => ({ ...test, label: words.terms[test.term] })),
  ];
}
