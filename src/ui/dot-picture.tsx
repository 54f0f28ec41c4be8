import { type ChanceFigures, type DotLayout, dotLayout } from "./dot-layout.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, dot, ink, round, soft } from "./picture-style.ts";

/** What stands in the picture, from `describe`: what was seen, and a flag for each end of the rule. */
export type ChanceWords = { observed: string; needed: string | null; neededBelow?: string | null; axis: string };
/** Heads of the table that says the same. */
export type ChanceTableWords = { right: string; panels: string; mark: string };

type Props = PictureIds & {
  figures: ChanceFigures;
  /** Pixels it may take; text in it has 14 px or more at every width. */
  width: number;
  /** Pixels that the tallest stack may take. */
  stack?: number;
  words: ChanceWords;
};

/**
 * The picture of chance: 100 dots for 100 panels that only guess, each end of the locked rule as a line with a flag,
 * the observed count as a triangle below the axis. Colors are attributes, so that it can be saved as a file of its own.
 */
export function ChanceDots({ figures, width, stack, words, caption, table }: Props) {
  const layout = dotLayout(figures, width, stack);
  const { axis, seen, axisName } = layout;
  return (
    <PictureFrame width={layout.width} height={layout.height} caption={caption} table={table}>
      <g fill={dot} class="dots">
        {layout.dots.map(({ x, y }) => (
          <circle key={`${x} ${y}`} cx={round(x)} cy={round(y)} r={round(layout.radius)} />
        ))}
      </g>
      <path d={`M${axis.from} ${round(axis.y)}H${round(axis.to)}`} stroke={ink} fill="none" />
      <g font-size="14" fill={soft} text-anchor="middle" class="ticks">
        {layout.ticks.map(({ x, value }) => (
          <text key={value} x={round(x)} y={round(axis.y + 19)}>
            {value}
          </text>
        ))}
      </g>
      <text x={round(axisName.x)} y={round(axis.y + 62)} font-size="14" fill={soft} text-anchor={axisName.anchor}>
        {words.axis}
      </text>
      <Flag rule={layout.atLeast} text={words.needed} axisY={axis.y} />
      <Flag rule={layout.atMost} text={belowOf(figures, words)} axisY={axis.y} />
      <g fill={accent} class="seen">
        <path d={`M${round(seen.x)} ${round(axis.y + 5)}l8 14h-16z`} />
        <text
          x={round(seen.x + (seen.anchor === "start" ? -8 : seen.anchor === "end" ? 8 : 0))}
          y={round(axis.y + 42)}
          font-size="15"
          font-weight="600"
          text-anchor={seen.anchor}
        >
          {words.observed}
        </text>
      </g>
    </PictureFrame>
  );
}

/** One end of the rule: a line down to the axis, with its label. */
function Flag({ rule, text, axisY }: { rule: DotLayout["atLeast"]; text: string | null; axisY: number }) {
  if (!rule || text === null) return null;
  return (
    <g class="needed">
      <path d={`M${round(rule.x)} ${rule.from}V${round(axisY)}`} stroke={ink} stroke-width="2" fill="none" />
      <text
        x={round(rule.x + (rule.anchor === "start" ? 8 : -8))}
        y={rule.from + 13}
        font-size="15"
        fill={ink}
        text-anchor={rule.anchor}
      >
        {text}
      </text>
    </g>
  );
}

/** A rule with one end has one flag, whichever end that is. */
const belowOf = ({ atLeast }: ChanceFigures, words: ChanceWords): string | null =>
  words.neededBelow ?? (atLeast === null ? words.needed : null);

/** The same as rows: every count where a dot stands, and those that carry a mark. */
export function ChanceTable(props: { figures: ChanceFigures; words: ChanceWords; heads: ChanceTableWords }) {
  const { figures, words, heads } = props;
  const rows = figures.guessingPanels
    .map((panels, right) => ({ panels, right, marks: marksOf(right, figures, words) }))
    .filter(({ panels, marks }) => panels > 0 || marks !== "");
  return (
    <table class="chance-table">
      <thead>
        <tr>
          <th scope="col" class="number">
            {heads.right}
          </th>
          <th scope="col" class="number">
            {heads.panels}
          </th>
          <th scope="col">{heads.mark}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ panels, right, marks }) => (
          <tr key={right}>
            <th scope="row" class="number">
              {right}
            </th>
            <td class="number">{panels}</td>
            <td>{marks}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const marksOf = (count: number, figures: ChanceFigures, words: ChanceWords): string =>
  [
    count === figures.atMost ? belowOf(figures, words) : null,
    count === figures.atLeast ? words.needed : null,
    count === figures.seen ? words.observed : null,
  ]
    .filter((mark) => mark !== null)
    .join(", ");
