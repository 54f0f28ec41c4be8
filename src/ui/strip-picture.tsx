import { Ticks } from "./interval-picture.tsx";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, ink, paper, round, soft } from "./picture-style.ts";
import { type StripGroup, type StripLayout, stripLayout, stripType } from "./strip-layout.ts";

type Props = PictureIds & { groups: readonly StripGroup[]; width: number };

/** A row for each difference of each property, all on one axis; a line at no difference runs through them. */
export function Strip({ groups, width, caption, table }: Props) {
  const layout = stripLayout(groups, width);
  const { axis } = layout;
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
      <path
        class="zero"
        d={layout.rows.map(({ y }) => `M${round(axis.at(0))} ${round(y - 9)}v18`).join("")}
        stroke={soft}
        stroke-dasharray="2 2"
        fill="none"
      />
      {layout.headings.map(({ text, y }) => (
        <Words key={y} x={0} y={y} text={text} weight="600" />
      ))}
      {layout.rows.map((row) => (
        <Row key={row.row.id} {...row} width={layout.width} at={axis.at} />
      ))}
      <path d={`M${round(axis.from)} ${round(axis.y)}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={round(axis.y)} />
    </PictureFrame>
  );
}

type RowProps = StripLayout["rows"][number] & { width: number; at: (value: number) => number };

function Row({ row, exploratory, labels, text, y, width, at }: RowProps) {
  const { estimate, low, high } = row;
  return (
    <g class={exploratory ? "row exploratory" : "row"}>
      {labels.map((line) => (
        <Words key={line.y} x={0} y={line.y} text={line.text} />
      ))}
      <Words x={text.end ? width : 0} y={text.y} text={text.text} end={text.end} />
      {low !== null && high !== null && (
        <path
          class="interval"
          d={`M${round(at(low))} ${round(y - 4)}v8M${round(at(low))} ${round(y)}H${round(at(high))}M${round(at(high))} ${round(y - 4)}v8`}
          stroke={ink}
          stroke-width="2"
          fill="none"
        />
      )}
      {estimate !== null && (
        <circle
          class="estimate"
          cx={round(at(estimate))}
          cy={round(y)}
          r="5"
          fill={exploratory ? paper : accent}
          stroke={accent}
          stroke-width="2"
        />
      )}
    </g>
  );
}

function Words(props: { x: number; y: number; text: string; end?: boolean; weight?: string }) {
  const { x, y, text, end = false, weight = "400" } = props;
  return (
    <text
      {...{ x, y: round(y), fill: ink }}
      font-size={stripType}
      font-weight={weight}
      text-anchor={end ? "end" : "start"}
    >
      {text}
    </text>
  );
}
