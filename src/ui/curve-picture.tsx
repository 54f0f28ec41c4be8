import { type CurveFigures, curveLayout, keyLine, type Shape } from "./curve-layout.ts";
import { Halo } from "./interval-picture.tsx";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { dot, ink, paper, round, soft } from "./picture-style.ts";

type Props = PictureIds & {
  figures: CurveFigures;
  width: number;
};

/** Means over the moments of a chew: a curve for each product, with the interval of each mean. */
export function Curves({ figures, width, caption, table }: Props) {
  const { plot, ticks, moments, curves, ...layout } = curveLayout(figures, width);
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
      {curves.map(({ name, key, shape, dash }) => (
        <g key={`${key.x} ${key.y}`} class="key">
          <path d={`M${key.x} ${key.y - 5}h${keyLine}`} stroke={ink} stroke-width="2" {...dashed(dash)} fill="none" />
          <Mark shape={shape} x={key.x + keyLine / 2} y={key.y - 5} />
          <Halo x={key.x + keyLine + 8} y={key.y} text={name} />
        </g>
      ))}
      <g class="scale-numbers" font-size="14" fill={soft} text-anchor="end">
        {ticks.map(({ y, text }) => (
          <g key={text}>
            <path d={`M${plot.left - 4} ${round(y)}h4`} stroke={ink} fill="none" />
            <text x={plot.left - 8} y={round(y) + 5}>
              {text}
            </text>
          </g>
        ))}
      </g>
      <path d={`M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}`} stroke={ink} fill="none" />
      <g class="moments" font-size="14" fill={soft} text-anchor="middle">
        {moments.map(({ x, lines }) => (
          <g key={x}>
            <path d={`M${round(x)} ${plot.bottom}v4`} stroke={ink} fill="none" />
            {lines.map(({ text, y }) => (
              <text key={y} x={round(x)} y={round(y)}>
                {text}
              </text>
            ))}
          </g>
        ))}
      </g>
      {curves.map(({ key, points }) => (
        <path
          key={`${key.x} ${key.y}`}
          class="interval"
          d={points
            .map(({ x, low, high }) =>
              low === null || high === null
                ? ""
                : `M${round(x) - 3} ${round(low)}h6M${round(x)} ${round(low)}V${round(high)}M${round(x) - 3} ${round(high)}h6`,
            )
            .join("")}
          stroke={dot}
          stroke-width="1.5"
          fill="none"
        />
      ))}
      {curves.map(({ key, shape, dash, path, points }) => (
        <g key={`${key.x} ${key.y}`} class="curve">
          <path d={path} stroke={ink} stroke-width="2" {...dashed(dash)} fill="none" />
          {points.map(({ x, y }) => (
            <Mark key={x} shape={shape} x={x} y={y} />
          ))}
        </g>
      ))}
    </PictureFrame>
  );
}

const dashed = (dash: string) => (dash === "" ? {} : { "stroke-dasharray": dash });

/** The mark of one mean; half of the shapes are open, so that no two look alike in gray. */
function Mark({ shape, x: left, y: top }: { shape: Shape; x: number; y: number }) {
  const [x, y] = [round(left), round(top)];
  switch (shape) {
    case "disc":
      return <circle cx={x} cy={y} r="5" fill={ink} />;
    case "ring":
      return <circle cx={x} cy={y} r="5" fill={paper} stroke={ink} stroke-width="2" />;
    case "square":
      return <path d={`M${x - 5} ${y - 5}h10v10h-10z`} fill={paper} stroke={ink} stroke-width="2" />;
    case "triangle":
      return <path d={`M${x} ${y - 6.5}l6 11h-12z`} fill={ink} />;
    case "diamond":
      return <path d={`M${x} ${y - 6.5}l6.5 6.5l-6.5 6.5l-6.5 -6.5z`} fill={paper} stroke={ink} stroke-width="2" />;
    case "cross":
      return (
        <path d={`M${x - 5} ${y - 5}l10 10M${x + 5} ${y - 5}l-10 10`} stroke={ink} stroke-width="2.5" fill="none" />
      );
  }
}
