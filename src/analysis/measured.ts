import type { MassSource, Measured } from "../model/measured.ts";
import type { StudyRecord } from "../model/record.ts";
import type { ChewResult } from "../model/result-chew.ts";
import { weighedConfidence } from "./finding.ts";
import { ledgerResult } from "./ledger.ts";

/**
 * What was weighed of a study's products, to stand beside what was perceived. Nothing is combined with the answers, and no
 * correlation is formed: a study has as many points as products.
 *
 * Returns  a row for each difference of two of its products that the masses know, in percentage points
 */
export function measuredOf({ masses, plan }: Pick<StudyRecord, "masses" | "plan">, app: string): Measured[] {
  if (!masses || plan.blank) return [];
  const nameOf = (id: string): string => plan.products.find((product) => product.id === id)?.name ?? "";
  return masses.sources.flatMap((source) => {
    const product = new Map(source.products.map(({ named, product }) => [named, product]));
    const of = (named: string): string => nameOf(product.get(named) ?? "");
    return differencesOf(source, app)
      .map((row) => ({
        ...row,
        ...{ title: source.title, first: of(row.first), second: of(row.second), afterReveal: masses.afterReveal },
      }))
      .filter(({ first, second }) => first !== "" && second !== "" && first !== second);
  });
}

type Row = Omit<Measured, "title" | "afterReveal">;

function differencesOf(source: MassSource, app: string): Row[] {
  if (source.kind === "portions") return gainsOf(source.found);
  const { differences, means } = ledgerResult(source.ledger, weighedConfidence, app);
  const last = source.ledger.steps.at(-1);
  return differences.flatMap(({ step, base, first, second, firstBatches, secondBatches, design, percentagePoints }) => {
    if (percentagePoints.estimate === null || (base === "raw" && step !== last)) return [];
    const meanOf = (product: string): number | null => {
      const mean = means.find((each) => each.product === product && each.step === step);
      return mean?.[base === "raw" ? "totalLoss" : "loss"].percent.estimate ?? null;
    };
    return {
      ...{ what: base === "raw" ? ("total-loss" as const) : ("step-loss" as const), step, first, second, design },
      ...{ firstPercent: meanOf(first), secondPercent: meanOf(second), difference: percentagePoints },
      ...{ unit: "batches" as const, units: [firstBatches, secondBatches] as [number, number] },
    };
  });
}

function gainsOf({ differences, means, unit }: ChewResult): Row[] {
  const meanOf = (product: string): number | null =>
    means.find((each) => each.product === product)?.gainPercent.estimate ?? null;
  return differences.flatMap(({ first, second, units, design, percentagePoints }) =>
    percentagePoints.estimate === null
      ? []
      : {
          ...{ what: "gain" as const, step: "", first, second, design, units },
          ...{ firstPercent: meanOf(first), secondPercent: meanOf(second), difference: percentagePoints },
          unit: unit === "panelist" ? ("panelists" as const) : ("portions" as const),
        },
  );
}
