import type { Description, Part } from "../analysis/describe.ts";
import type { Result } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { Worded } from "./attribute-tables.tsx";
import { partTableId } from "./choice-figures.tsx";
import { FigureView } from "./figure-view.tsx";
import { isCurve, isLong, leastInGroup, partFigures, showsPeople } from "./figures.tsx";

type Props = { result: Result; said: Description; lead: boolean };

/** What only some studies have, each with its sentences, its picture and its table. How the panel did is the lead's to read. */
export function Parts({ parts, result, said, lead }: Props & { parts: readonly Part[] }) {
  return (
    <>
      {parts
        .filter(({ id }) => lead || id !== "panel")
        .map((part) => (
          <section key={part.id}>
            <h2>{part.heading}</h2>
            {part.sentences.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
            <PartBody part={part} result={result} said={said} lead={lead} />
          </section>
        ))}
    </>
  );
}

function PartBody({ part, result, said, lead }: Props & { part: Part }) {
  if (
    ((part.id === "people" || part.id === "gains-by-person") && !showsPeople(result, lead)) ||
    (part.id === "sessions" && !showsSessions(result, lead))
  ) {
    return <p class="fine">{reader.orders.withheld(leastInGroup)}</p>;
  }
  return (
    <>
      {partFigures(result, said, part.id, lead).map((figure) => (
        <FigureView key={figure.id} figure={figure} />
      ))}
      {isLong(part.table.rows.length) ? (
        <p class="fine">{reader.large.noTable(part.table.rows.length)}</p>
      ) : (
        <Worded
          table={part.table}
          strong={isCurve(part.id) || part.id === "gains-by-person" ? 0 : 1}
          id={partTableId(part.id)}
        />
      )}
    </>
  );
}

/** A session of few answers would tell a reader what one person said; the lead sees them all. */
function showsSessions(result: Result, lead: boolean): boolean {
  if (lead || (result.family !== "choice" && result.family !== "pair")) return true;
  return result.sessions?.rows.every(({ judgments }) => judgments >= leastInGroup) ?? true;
}
