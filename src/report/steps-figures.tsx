import type { AttributeText, Description } from "../analysis/describe.ts";
import { sideCounts, sideLabels } from "../analysis/describe-steps.ts";
import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { JustRightBars, type JustRightFigures } from "../ui/just-right-picture.tsx";
import type { StepFigures } from "../ui/steps-layout.ts";
import { StepBars } from "../ui/steps-picture.tsx";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { Worded } from "./attribute-tables.tsx";
import type { Figure } from "./figures.tsx";

const { steps: words } = report;

/** How often each step was chosen; null for a line. */
export function stepsFigure(attribute: AttributeResult, text: AttributeText, at: number): Figure | null {
  const { distribution, form, lowAnchor, highAnchor } = attribute;
  if (!distribution || form.kind === "line" || !text.distribution) return null;
  const meanOf = (name: string) => attribute.means.find(({ product }) => product === name)?.estimate ?? null;
  const figures: StepFigures = {
    products: distribution.map(({ product, counts }) => ({
      name: product,
      text: reader.pictures.marks.mean(meanOf(product), text.decimals),
      mean: meanOf(product),
      counts,
    })),
    steps: form.labels.length,
    ends: lowAnchor || highAnchor ? { low: lowAnchor, high: highAnchor } : null,
  };
  const people = attribute.panelists.filter(({ values }) => values.some((value) => value !== null)).length;
  return {
    id: `steps-${at + 1}`,
    tableId: `steps-${at + 1}-table`,
    name: words.picture.name(text.heading),
    caption: () => words.picture.caption(people),
    draw: (width, ids) => <StepBars figures={figures} width={width} {...ids} />,
    table: <Worded table={text.distribution} strong={0} />,
  };
}

/** The bars of a just-right scale, and its steps one by one as a table. */
export function rightFigure(result: ScaleResult, said: Description, part: `right-${number}`): Figure | null {
  const at = Number(part.slice("right-".length)) - 1;
  const attribute = result.attributes[at];
  const steps = said.attributes[at]?.distribution;
  if (!attribute?.justRight || !steps) return null;
  const labels = sideLabels(attribute, report);
  const { picture } = words.justRight;
  const figures: JustRightFigures = {
    labels: [labels.little, labels.right, labels.much],
    products: attribute.justRight.products.map((product) => ({
      name: product.product,
      text: picture.answers(product.judgments),
      counts: sideCounts(product),
    })),
  };
  const { attribute: name, moment, momentText } = attribute;
  return {
    id: part,
    tableId: `${part}-steps`,
    name: picture.name(report.scale.heading(name, moment, momentText)),
    caption: () => picture.caption,
    draw: (width, ids) => <JustRightBars figures={figures} width={width} {...ids} />,
    table: <Worded table={steps} strong={0} />,
  };
}
