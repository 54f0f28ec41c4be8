import { boundsOf, unitOfCurve } from "../analysis/describe-curve.ts";
import { stepsOf, valueEnds } from "../analysis/steps.ts";
import { secondsAt } from "../model/moments.ts";
import type { ScaleResult } from "../model/result.ts";
import type { CurveFigures } from "../ui/curve-layout.ts";
import { Curves } from "../ui/curve-picture.tsx";
import { report } from "../words/en/report.ts";
import { partTableId } from "./choice-figures.tsx";
import type { Figure } from "./figures.tsx";

/** The picture of a property over the chew; its table stands below it anyway. Null where nothing was marked. */
export function curveFigure(result: ScaleResult, part: `curve-${number}`): Figure | null {
  const curve = result.curves[Number(part.slice("curve-".length)) - 1];
  if (!curve) return null;
  const { curve: words } = report;
  const moments = curve.at.flatMap((place) => result.attributes[place] ?? []);
  const seconds = moments.map(({ moment }) => (moment ? secondsAt(moment) : null));
  const figures: CurveFigures = {
    moments: moments.map(({ moment }, at) => ({
      label: moment ? words.when(moment) : "",
      seconds: seconds[at] ?? null,
    })),
    products: result.products.map((name) => ({
      name,
      values: moments.map(({ means }) => {
        const mean = means.find(({ product }) => product === name);
        if (!mean || mean.estimate === null) return null;
        return { estimate: mean.estimate, ...(boundsOf(mean) ?? { low: null, high: null }) };
      }),
    })),
    range: valueEnds(moments[0]?.form ?? { kind: "line" }, result.scale) ?? { low: 0, high: 100 },
    steps: moments[0] ? stepsOf(moments[0].form) : null,
  };
  return {
    id: part,
    tableId: partTableId(part),
    name: words.picture.name(curve.attribute),
    caption: () =>
      words.picture.caption(
        result.confidence,
        seconds.every((value) => value !== null),
        unitOfCurve(moments),
      ),
    draw: (width, ids) => <Curves figures={figures} width={width} {...ids} />,
    table: null,
  };
}
