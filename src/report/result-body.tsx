import type { ComponentChildren } from "preact";
import { familySize } from "../analysis/attribute-family.ts";
import type { Description, Row } from "../analysis/describe.ts";
import { isOfCurve } from "../analysis/describe-curve.ts";
import { isStrip } from "../analysis/describe-family.ts";
import type { Result, ScaleResult } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { AttributeTables } from "./attribute-tables.tsx";
import { FigureView } from "./figure-view.tsx";
import { attributeFigures, type Figure, figuresOf } from "./figures.tsx";
import { Parts } from "./parts.tsx";

type Props = {
  result: Result;
  said: Description;
  /** The fine line above the verdict: the question as locked, or where the answers came from. */
  question: string;
  /** Where the focus goes when this takes the place of a form. */
  verdictId?: string;
  /** A lead sees small groups too. */
  lead?: boolean;
  /** What follows the departures: how it was done, details, files. */
  children: ComponentChildren;
};

/** A result from the verdict to the departures, with or without a study. Every sentence of it comes from `describe`. */
export function ResultBody({ result, said, question, verdictId, lead = false, children }: Props) {
  const figures = result.family === "scale" ? attributeFigures(result, said, 0) : figuresOf(result, said);
  return (
    <>
      <p class="fine question">{question}</p>
      <h1 class="verdict" {...(verdictId ? { id: verdictId, tabIndex: -1 } : {})}>
        {said.verdict}
      </h1>
      <p class="lead-in">{said.size}</p>
      {said.agreed !== "" && <p class="agreed">{said.agreed}</p>}
      {said.meaning !== "" && (
        <aside class="note">
          <p>{said.meaning}</p>
          <p>{said.caution}</p>
        </aside>
      )}
      {figures
        .filter((figure) => !isRuler(figure))
        .map((figure) => (
          <FigureView key={figure.id} figure={figure} />
        ))}
      <section class="heavy">
        <h2 class="unseen">{reader.sections.numbers}</h2>
        <Numbers rows={said.rows} />
        {result.family === "scale" && <Tables result={result} said={said} at={0} />}
      </section>
      {figures.filter(isRuler).map((figure) => (
        <FigureView key={figure.id} figure={figure} />
      ))}
      <Parts parts={said.parts.filter(({ id }) => isStrip(id))} result={result} said={said} lead={lead} />
      <Parts parts={said.parts.filter(({ id }) => isOfCurve(id))} result={result} said={said} lead={lead} />
      {result.family === "scale" && said.attributes.slice(1).some(({ apart }) => !apart) && (
        <Further result={result} said={said} />
      )}
      <Parts
        parts={said.parts.filter(({ id }) => !isOfCurve(id) && !isStrip(id))}
        result={result}
        said={said}
        lead={lead}
      />
      <Sentences heading={reader.sections.notShown} sentences={said.caveats} />
      <Sentences heading={reader.sections.departures} sentences={said.departures} />
      {children}
    </>
  );
}

/** The ruler of d′ stands below the numbers, so that page one of the print holds verdict, picture and numbers. */
const isRuler = ({ id }: Figure): boolean => id === "distance";

function Tables({ result, said, at }: { result: ScaleResult; said: Description; at: number }) {
  const attribute = result.attributes[at];
  const text = said.attributes[at];
  return attribute && text && !text.apart ? <AttributeTables attribute={attribute} text={text} at={at} /> : null;
}

/** The properties that the question is not about, each with the same pictures and tables. */
function Further({ result, said }: { result: ScaleResult; said: Description }) {
  return (
    <section class="further">
      <h2>{reader.scale.further}</h2>
      <p class="fine">{reader.scale.furtherNote(familySize(result.attributes))}</p>
      {said.attributes.map(({ heading, finding, beside, rows, apart }, at) =>
        at === 0 || apart ? null : (
          <div class="part" key={heading}>
            <h3 class="attribute">{heading}</h3>
            <p>{finding}</p>
            {result.attributes[at]?.inFamily && <p>{beside}</p>}
            {attributeFigures(result, said, at).map((figure) => (
              <FigureView key={figure.id} figure={figure} />
            ))}
            <Numbers rows={rows} />
            <Tables result={result} said={said} at={at} />
          </div>
        ),
      )}
    </section>
  );
}

/** Label, number, and what stands behind the number in a column of its own, so that the numbers line up. */
function Numbers({ rows }: { rows: readonly Row[] }) {
  if (rows.length === 0) return null;
  return (
    <table class="numbers">
      <tbody>
        {rows.map(({ id, label, value, behind }, at) => (
          <tr key={id} class={at === 0 ? "first" : undefined}>
            <th scope="row">{label}</th>
            <td class="number">{value}</td>
            <td class="behind">{behind}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Sentences({ heading, sentences }: { heading: string; sentences: readonly string[] }) {
  return (
    <section>
      <h2>{heading}</h2>
      {sentences.length === 1 ? (
        <p>{sentences[0]}</p>
      ) : (
        <ul class="sentences">
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
