import type { Description, Part } from "../analysis/describe.ts";
import type { Interval } from "../model/interval.ts";
import type { KindsResult, Result } from "../model/result.ts";
import { type IntervalFigures, IntervalRows } from "../ui/interval-picture.tsx";
import { People } from "../ui/people-picture.tsx";
import { Ruler, type RulerFigures } from "../ui/ruler-picture.tsx";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { ShareTable } from "./figure-tables.tsx";
import type { Figure } from "./figures.tsx";

/** The distance on a ruler; none without an estimate or a bound, with a key in doubt, or with too few answers. */
export function rulerFigures(result: Result): Figure[] {
  if (
    result.family === "scale" ||
    result.family === "rank" ||
    result.family === "portions" ||
    !result.dPrime ||
    result.judgments === 0
  )
    return [];
  if (["withheld", "too-few", "far-below-chance"].includes(result.outcome)) return [];
  const shown = shownDistance(result, result.dPrime);
  if (shown.estimate === null && shown.low === null) return [];
  const words = report.parts.distance;
  const limit = result.family === "choice" ? (result.limit?.dPrime ?? null) : null;
  const { estimate, low, high } = shown;
  const figures: RulerFigures = {
    ...{ estimate, limit },
    low: shown.kind === "none" || shown.kind === "upper" ? null : low,
    high: shown.kind === "none" || shown.kind === "lower" ? null : high,
    text: `d′ ${words.value(shown)}`,
    words: words.words,
  };
  return [
    {
      id: "distance",
      tableId: "distance-table",
      name: words.heading,
      caption: () => words.caption(estimate, limit),
      draw: (width, ids) => <Ruler figures={figures} width={width} {...ids} />,
      table: <WordsTable text={words.value(shown)} />,
    },
  ];
}

/** Beside a miss of a difference stand both ends of what the answers allow. */
function shownDistance(result: Result, dPrime: Interval): Interval {
  const open = result.family === "choice" && result.goal === "difference" && result.outcome === "not-reached";
  const bounded = dPrime.kind !== "none" && result.family === "choice" && result.stopping === null;
  return open && bounded ? result.dPrimeProfile : dPrime;
}

function WordsTable({ text }: { text: string }) {
  const { heads, words } = report.parts.distance;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{heads.word}</th>
          <th scope="col" class="number">
            {heads.from}
          </th>
        </tr>
      </thead>
      <tbody>
        {words.map(({ word, from }) => (
          <tr key={word}>
            <th scope="row">{word}</th>
            <td class="number">{from}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{heads.seen}</th>
          <td class="number">{text}</td>
        </tr>
      </tfoot>
    </table>
  );
}

const percent = (share: number | null): number | null => (share === null ? null : share * 100);

/** How often each kind of tray was told, of same-different and A-not-A. */
export function kindsShares(result: KindsResult): Figure {
  const { method, unlike, like } = result;
  const { shares } = reader.pictures;
  const asked = (["unlike", "like"] as const).map((id) => {
    const { told, share } = id === "unlike" ? unlike : like;
    return { id, label: report.kinds.rows.told(method, id), count: told, share };
  });
  const rows = asked.map(({ id, label, share }) => ({
    ...{ id, label, text: share.kind === "none" ? report.kinds.picture.alone(share.estimate) : shares.value(share) },
    ...{ estimate: percent(share.estimate), low: percent(share.low), high: percent(share.high) },
  }));
  const figures: IntervalFigures = { rows, range: { low: 0, high: 100 }, zero: false };
  return {
    id: "shares",
    tableId: "shares-table",
    name: report.kinds.picture.name,
    caption: () => report.kinds.picture.caption(unlike.share.confidence, unlike.share.kind !== "none"),
    draw: (width, ids) => <IntervalRows figures={figures} width={width} {...ids} />,
    table: <ShareTable rows={asked} />,
  };
}

/** More people than this are not drawn: the table has them all. */
const mostPeople = 60;

/** Everybody's counts as marks, the most first; the table of the part says the same. */
export function peopleFigure(result: Result, said: Description): Figure | null {
  if (result.family !== "choice" && result.family !== "pair") return null;
  const { panelists } = result;
  if (panelists.length < 2 || panelists.length > mostPeople || !said.parts.some(({ id }) => id === "people"))
    return null;
  const people = panelists
    .map(({ panelist, correct, judgments }) => ({ name: panelist, correct, judgments }))
    .toSorted((one, other) => other.correct / other.judgments - one.correct / one.judgments);
  const words = reader.pictures.people;
  return {
    id: "people",
    tableId: partTableId("people"),
    name: words.name,
    caption: () => (result.family === "pair" ? words.captionFirst(result.products[0]) : words.caption),
    draw: (width, ids) => <People figures={{ people }} width={width} {...ids} />,
    table: null,
  };
}

/** The differences from question to question: each share with its interval. */
export function questionsFigure(result: Result): Figure | null {
  if ((result.family !== "choice" && result.family !== "pair") || result.questions.length < 2) return null;
  const { shares, questions: words } = reader.pictures;
  const rows = result.questions.map(({ property, share, inFamily }, at) => ({
    ...{ id: `question-${at + 1}`, label: words.label(property.name, inFamily), text: shares.value(share) },
    ...{ estimate: percent(share.estimate), low: percent(share.low), high: percent(share.high) },
  }));
  const guess = Math.round(100 / (result.family === "pair" ? 2 : 1 / result.guessProbability));
  const figures: IntervalFigures = { rows, range: { low: 0, high: 100 }, zero: false };
  return {
    id: "questions",
    tableId: partTableId("questions"),
    name: words.name,
    caption: () => words.caption(guess, result.questions[0]?.share.confidence ?? 0.95),
    draw: (width, ids) => <IntervalRows figures={figures} width={width} {...ids} />,
    table: null,
  };
}

export const partTableId = (part: Part["id"]): string => `${part}-table`;
