import type { Description } from "../analysis/describe.ts";
import { besideOf } from "../analysis/describe-beside.ts";
import type { Result } from "../model/result.ts";
import { unitOf } from "../model/result-steps.ts";
import type { StripGroup } from "../ui/strip-layout.ts";
import { Strip } from "../ui/strip-picture.tsx";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { partTableId } from "./choice-figures.tsx";
import type { Figure } from "./figures.tsx";

const words = report.beside;

/** What was perceived and what was measured, each on an axis of its own. Their table stands below them. */
export function besideFigures(result: Result, said: Description): Figure[] {
  const [text] = said.attributes;
  const [attribute] = result.family === "scale" ? result.attributes : [];
  const perceived = attribute && text && attribute.contrasts.length > 0 ? perceivedGroup(attribute, text) : null;
  const measured = new Map<string, StripGroup & { rows: StripGroup["rows"][number][] }>();
  besideOf(result).forEach((row, at) => {
    const heading = words.measuredHeading(row);
    const group = measured.get(heading) ?? { heading, exploratory: false, rows: [] };
    measured.set(heading, group);
    const { estimate, low, high } = row.difference;
    group.rows.push({
      id: `measured ${at}`,
      label: words.between(row.second, row.first),
      text: `${words.estimate(row)} (${words.range(row)})`,
      ...{ estimate, low, high },
    });
  });
  const figure = (id: Figure["id"], name: string, caption: string, groups: readonly StripGroup[]): Figure => ({
    ...{ id, name, table: null, tableId: partTableId("beside"), caption: () => caption },
    draw: (width, ids) => <Strip groups={groups} width={width} {...ids} />,
  });
  const { pictures } = words;
  return [
    ...(perceived && text && attribute
      ? [
          figure(
            "beside-perceived",
            pictures.perceived.name,
            pictures.perceived.caption(`${text.heading}, ${unitOf(attribute.form)}`),
            [perceived],
          ),
        ]
      : []),
    figure("beside-measured", pictures.measured.name, pictures.measured.caption, [...measured.values()]),
  ];
}

type Attribute = Extract<Result, { family: "scale" }>["attributes"][number];

function perceivedGroup({ contrasts }: Attribute, text: Description["attributes"][number]): StripGroup {
  const { minusOf, byOf } = reader.scale;
  const rows = contrasts.map(({ compared, first, second, difference, lowTogether, highTogether }) => ({
    id: `perceived ${compared} ${first} ${second}`,
    label: compared === "interaction" ? byOf(first, second) : minusOf(first, second),
    text: report.family.picture.value(difference, lowTogether, highTogether, text.decimals),
    ...{ estimate: difference, low: lowTogether, high: highTogether },
  }));
  return { heading: text.heading, exploratory: false, rows };
}
