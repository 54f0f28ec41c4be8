import { type ChanceFigures, dotLayout } from "./dot-layout.ts";

const ink = "#1f2328";
const soft = "#575d64";
const dot = "#868c93";
const accent = "#5b2a86";
const font = 'system-ui, "Noto Sans", Arial, sans-serif';

/** What stands in the picture, from `describe`. */
export type ChanceWords = { observed: string; needed: string | null; axis: string };
/** Heads of the table that says the same. */
export type ChanceTableWords = { right: string; panels: string; mark: string };

type Props = {
  result: ChanceFigures;
  /** Pixels it may take; text in it has 14 px or more at every width. */
  width: number;
  /** Pixels that the tallest stack may take. */
  stack?: number;
  words: ChanceWords;
  /** Ids of the caption that names it and of the table that says the same. Without them it is for the eye only. */
  caption?: string;
  table?: string;
};

/**
 * The picture of chance: 100 dots for 100 panels that only guess, the locked critical number as a rule with a flag,
 * the observed count as a triangle below the axis. Colors are attributes, so that it can be saved as a file of its own.
 */
export function ChanceDots({ result, width, stack, words, caption, table }: Props) {
  const layout = dotLayout(result, width, stack);
  const { axis, rule, seen, axisName } = layout;
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: the caption names it, by id; a title would show as a tooltip
    <svg
      {...(caption ? { role: "img", "aria-labelledby": caption, "aria-details": table } : { "aria-hidden": true })}
      width={layout.width}
      height={layout.height}
      viewBox={`0 0 ${layout.width} ${layout.height}`}
      font-family={font}
      class="chance"
    >
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
      <text x={round(axisName.x)} y={round(axis.y + 42)} font-size="14" fill={soft} text-anchor={axisName.anchor}>
        {words.axis}
      </text>
      {rule && words.needed !== null && (
        <g class="needed">
          <path d={`M${round(rule.x)} ${rule.from}V${round(axis.y)}`} stroke={ink} stroke-width="2" fill="none" />
          <text
            x={round(rule.x + (rule.anchor === "start" ? 8 : -8))}
            y={rule.from + 13}
            font-size="15"
            fill={ink}
            text-anchor={rule.anchor}
          >
            {words.needed}
          </text>
        </g>
      )}
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
    </svg>
  );
}

/** The same as rows: every count where a dot stands, and those that carry a mark. */
export function ChanceTable(props: { result: ChanceFigures; words: ChanceWords; heads: ChanceTableWords }) {
  const { result, words, heads } = props;
  const rows = result.guessingPanels
    .map((panels, right) => ({ panels, right, marks: marksOf(right, result, words) }))
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

const marksOf = (right: number, { correct, criticalNumber }: ChanceFigures, words: ChanceWords): string =>
  [right === criticalNumber ? words.needed : null, right === correct ? words.observed : null]
    .filter((mark) => mark !== null)
    .join(", ");

const round = (value: number): number => Math.round(value * 100) / 100;
