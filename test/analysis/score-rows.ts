import * as z from "zod/mini";
import type { ScaleRow } from "../../src/model/record.ts";
import { reference } from "./reference.ts";

/** Published scores, one row for each value, with what is printed or computed elsewhere beside them. */

const score = z.array(z.number());
export const fishScores = reference(
  "scores-two-way",
  z.object({
    rows: z.array(z.tuple([z.string(), score, score, score, score])).check(z.minLength(6)),
    printedSampleMeans: z.array(z.number()),
    computed: z.object({ F_sample_over_interaction: z.number() }),
  }),
);
export const fishRows: ScaleRow[] = fishScores.rows.flatMap(([product, ...assessors]) =>
  assessors.flatMap((scores, assessor) =>
    scores.map((value, repeat) => ({
      panelist: `assessor ${assessor + 1}`,
      product,
      repeat: String(repeat + 1),
      attribute: "",
      moment: "",
      value,
    })),
  ),
);

export const wineScores = reference(
  "wine-bitterness",
  z.object({
    rows: z.array(z.tuple([z.number(), z.number(), z.string(), z.string(), z.number()])).check(z.minLength(72)),
    computed: z.object({
      means: z.record(z.string(), z.number()),
      F_random_treatment_over_interaction: z.number(),
      p_random: z.number(),
      LSD_interactionError: z.number(),
      varianceComponents: z.object({ judge: z.number(), judgeTreatment: z.number(), residual: z.number() }),
    }),
  }),
);
export const wineRows: ScaleRow[] = wineScores.rows.map(([judge, bottle, temperature, contact, value]) => ({
  panelist: String(judge),
  product: `${temperature}/${contact}`,
  repeat: String(((bottle - 1) % 2) + 1),
  attribute: "bitterness",
  moment: "",
  value,
}));

/** The rows as a CSV that the terminal reads. */
export const csvOf = (rows: readonly ScaleRow[]): string =>
  `panelist,product,repeat,attribute,moment,value\n${rows
    .map(({ panelist, product, repeat, attribute, moment, value }) =>
      [panelist, product, repeat, attribute, moment, value ?? ""].join(","),
    )
    .join("\n")}\n`;
