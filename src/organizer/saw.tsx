import { useRef } from "preact/hooks";
import type { SawPoint } from "../design/panel-size.ts";
import { useWidth } from "../ui/use-width.ts";
import type { SizeWords } from "../words/en/organizer-people.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { sawLayout } from "./saw-layout.ts";

/** `words`: of the test at hand; `share`: what they speak of, the share sought or the limit. */
type Props = { points: SawPoint[]; chosen: number; share: number; words: SizeWords };
/** What the picture alone needs; a scale has no count that decides. */
type Drawn = {
  points: Pick<SawPoint, "people" | "power">[];
  chosen: number;
  share: number;
  words: Pick<SizeWords, "picture">;
};

const axis = planWords.people;

/** The teeth of the exact test, or the curve of a scale, as dots, drawn for the width at hand; the choice is the large one. */
export function Saw({ points, chosen, share, words }: Drawn) {
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box, 600);
  const layout = sawLayout(points, chosen, width);
  return (
    <figure class="saw" ref={box}>
      <svg
        role="img"
        aria-label={words.picture(share)}
        width={layout.width}
        height={layout.height}
        viewBox={`0 0 ${layout.width} ${layout.height}`}
      >
        {layout.levels.map(({ y, text, goal }) => (
          <g key={text}>
            <path d={`M${layout.from} ${y}H${layout.to}`} class={goal ? "goal" : "level"} />
            <text x={layout.from - 10} y={y + 5} text-anchor="end">
              {text}
            </text>
          </g>
        ))}
        {layout.dots.map(({ people, x, y }) => (
          <circle key={people} cx={x} cy={y} r={layout.radius} />
        ))}
        {layout.choice ? <circle cx={layout.choice.x} cy={layout.choice.y} r={7} class="chosen" /> : null}
        {layout.ticks.map(({ x, people, chosen: mine, anchor }) => (
          <text key={people} x={x} y={layout.height - 8} text-anchor={anchor} class={mine ? "chosen" : undefined}>
            {people}
          </text>
        ))}
        <text x={layout.to} y={layout.height - 8} text-anchor="end">
          {axis.axis}
        </text>
      </svg>
      <figcaption class="fine" aria-hidden="true">
        {words.picture(share)}
      </figcaption>
    </figure>
  );
}

/** The same as rows: your choice, its neighbors, and every sixth size. */
export function SawTable({ points, chosen, share, words }: Props) {
  const rows = points.filter(({ people }) => people % 6 === 0 || Math.abs(people - chosen) <= 1);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col" class="number">
            {axis.columnPeople}
          </th>
          <th scope="col" class="number">
            {words.columns.needed}
          </th>
          <th scope="col" class="number">
            {words.columns.finds(share)}
          </th>
          <th scope="col" class="number">
            {words.columns.fooled}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ people, criticalNumber, power, chanceAtCritical }) => (
          <tr key={people} class={people === chosen ? "mine" : undefined}>
            <th scope="row" class="number">
              {people === chosen ? `${axis.chosen}: ` : ""}
              {people}
            </th>
            <td class="number">{criticalNumber ?? axis.none}</td>
            <td class="number">{axis.ofHundred(power)}</td>
            <td class="number">{planWords.percent(Math.round(chanceAtCritical * 1000) / 1000)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
