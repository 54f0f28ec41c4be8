import type { AttributeText, WordTable } from "../analysis/describe.ts";
import type { AttributeResult, ScaleResult } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { pText, statistic } from "../words/number.ts";

/** Pairs and means of one attribute, as `describe` words them, and who left what unmarked. */
export function AttributeTables({ attribute, text }: { attribute: AttributeResult; text: AttributeText }) {
  const { contrasts, means } = text;
  return (
    <>
      {contrasts && contrasts.rows.length > 0 && <Worded table={contrasts} strong={1} />}
      {means && means.rows.length > 0 && <Worded table={means} strong={2} />}
      {attribute.incomplete.length > 0 && <p class="fine part">{reader.scale.incomplete(attribute.incomplete)}</p>}
    </>
  );
}

/** A table in words. `strong`: the column that the others explain. */
function Worded({ table, strong }: { table: WordTable; strong: number }) {
  const [first, ...columns] = table.columns;
  return (
    <div class="part">
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
                <td class={at + 1 === strong ? "number strong" : "number"} key={columns[at]}>
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
        {attribute.terms.map(({ term, fValue, numeratorDf, denominatorDf, pValue }) => (
          <tr key={term}>
            <th scope="row">{words.terms[term]}</th>
            <td class="number">{words.dfIs(numeratorDf, denominatorDf)}</td>
            <td class="number">{statistic(fValue)}</td>
            <td class="number">{pText(pValue, result.alpha)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
