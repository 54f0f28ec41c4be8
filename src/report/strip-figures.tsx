import type { Description } from "../analysis/describe.ts";
import { intervalsOf, type NamedAttribute, stripsOf } from "../analysis/describe-family.ts";
import type { ScaleResult } from "../model/result.ts";
import { unitOf } from "../model/result-steps.ts";
import type { StripGroup } from "../ui/strip-layout.ts";
import { Strip } from "../ui/strip-picture.tsx";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { partTableId } from "./choice-figures.tsx";
import type { Figure } from "./figures.tsx";

const words = report.family;

/** The strip of a part: all properties of one unit, their differences on one axis. Its table stands below it anyway. */
export function stripFigure(result: ScaleResult, said: Description, part: `strip-${number}`): Figure | null {
  const named = result.attributes.flatMap((attribute, at): NamedAttribute[] => {
    const text = said.attributes[at];
    return text ? [{ attribute, subject: text.heading, heading: text.heading, decimals: text.decimals }] : [];
  });
  const strip = stripsOf(named)[Number(part.slice("strip-".length)) - 1];
  if (!strip) return null;
  const groups = strip.map((one) => groupOf(one, result.products.length));
  const { name, caption } = words.picture;
  return {
    id: part,
    tableId: partTableId(part),
    name,
    caption: () =>
      caption({
        confidence: result.confidence,
        exploratory: groups.some(({ exploratory }) => exploratory),
        unit: strip[0] ? unitOf(strip[0].attribute.form) : "points",
        mixed: mixedIn(strip),
        holm: intervalsOf(result, strip) === "holm",
      }),
    draw: (width, ids) => <Strip groups={groups} width={width} {...ids} />,
    table: null,
  };
}

/** In how much of a strip the mixed model leads; what has no differences is not asked. */
function mixedIn(strip: readonly NamedAttribute[]): "all" | "none" | "some" {
  const compared = strip.filter(({ attribute }) => attribute.contrasts.length > 0);
  const mixed = compared.filter(({ attribute }) => attribute.leads === "mixed").length;
  if (mixed === 0) return "none";
  return mixed === compared.length ? "all" : "some";
}

/** With two products a property is one row under its own name; with more it heads its comparisons. */
function groupOf({ attribute, heading, decimals }: NamedAttribute, products: number): StripGroup {
  const exploratory = !attribute.inFamily;
  const label = exploratory ? words.marked(heading) : heading;
  const two = products === 2;
  const { minusOf, byOf } = reader.scale;
  const rows = attribute.contrasts.map(({ compared, first, second, difference, lowTogether, highTogether }) => ({
    id: `${heading} ${compared} ${first} ${second}`,
    label: two ? label : compared === "interaction" ? byOf(first, second) : minusOf(first, second),
    text: words.picture.value(difference, lowTogether, highTogether, decimals),
    ...{ estimate: difference, low: lowTogether, high: highTogether },
  }));
  const none = { id: heading, label: two ? label : words.noTest, text: two ? words.noTest : "" };
  return {
    heading: two ? null : label,
    exploratory,
    rows: rows.length > 0 ? rows : [{ ...none, estimate: null, low: null, high: null }],
  };
}
