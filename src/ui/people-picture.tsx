import { Ticks } from "./interval-picture.tsx";
import { numberAxis } from "./number-axis.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, dot, ink, paper, round, soft, textWidth } from "./picture-style.ts";

/** Everybody's own counts, in the order in which they are to stand. */
export type PeopleFigures = { people: readonly { name: string; correct: number; judgments: number }[] };

const row = 22;
const top = 4;
/** More answers than this a person are a bar, not single marks. */
const mostMarks = 12;

type Props = { figures: PeopleFigures; width: number } & PictureIds;

/** A row for each person: a filled mark for each right answer, an empty one for each other; many answers make a bar. */
export function People({ figures, width, caption, table }: Props) {
  const { people } = figures;
  const inner = Math.max(200, width);
  const most = Math.max(1, ...people.map(({ judgments }) => judgments));
  const names = Math.min(inner / 3, Math.max(...people.map(({ name }) => textWidth(name, 14)), 0) + 12);
  const pitch = Math.min(row, (inner - names - 60) / most);
  const end = names + pitch * most;
  const axis = most > mostMarks ? numberAxis({ low: 0, high: most }, { from: names, to: end }) : null;
  const height = top + people.length * row + (axis ? 30 : 4);
  return (
    <PictureFrame width={inner} height={height} caption={caption} table={table} fontSize="14">
      {people.map(({ name, correct, judgments }, at) => {
        const y = top + at * row + row / 2;
        return (
          <g key={name} class="person">
            <text x={0} y={y + 5} fill={soft}>
              {name}
            </text>
            {axis ? (
              <path
                d={`M${round(names)} ${y}H${round(axis.at(correct))}`}
                stroke={accent}
                stroke-width="8"
                fill="none"
              />
            ) : (
              Array.from({ length: judgments }, (_, mark) => (
                <circle
                  key={mark}
                  cx={round(names + (mark + 0.5) * pitch)}
                  cy={y}
                  r={round(Math.min(6, pitch * 0.36))}
                  fill={mark < correct ? accent : paper}
                  stroke={mark < correct ? accent : dot}
                  stroke-width="1.5"
                />
              ))
            )}
            <text x={round(end + 10)} y={y + 5} fill={ink}>
              {correct}/{judgments}
            </text>
          </g>
        );
      })}
      {axis && <Ticks ticks={axis.ticks} y={top + people.length * row} />}
    </PictureFrame>
  );
}
