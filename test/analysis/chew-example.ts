import type { ChewRow } from "../../src/analysis/chew-portion.ts";
import type { ChewPlan } from "../../src/analysis/chew-weigh.ts";

/** The invented scenario's gains in percent, three repeats each: current, then new, one row a person. */
export const scenarioGains = [
  [26.9, 23.7, 24.8, 20.6, 19.5, 21.7],
  [22.6, 24.8, 25.0, 21.1, 23.0, 23.5],
  [27.6, 26.9, 26.9, 27.3, 25.4, 24.8],
  [26.5, 22.6, 27.3, 19.3, 22.3, 20.8],
  [24.8, 28.6, 25.1, 24.2, 24.3, 27.6],
  [25.8, 19.9, 24.9, 21.1, 18.4, 22.9],
  [24.4, 24.5, 27.0, 23.1, 23.5, 22.9],
  [25.4, 29.1, 25.0, 19.9, 21.8, 20.4],
];

export const chewRows: ChewRow[] = scenarioGains.flatMap((gains, person) =>
  gains.map((gainPercent, at) => ({
    ...{ panelist: `p${person + 1}`, product: at < 3 ? "current" : "new", repeat: String((at % 3) + 1) },
    ...{ readings: null, gainPercent, seconds: 15 },
  })),
);

export const chewPlan: ChewPlan = {
  ...{ control: null, matters: null, plannedSeconds: 15, balanceStep: "", confidence: 0.95 },
};

/** A portion that was weighed. */
export const portion = (
  panelist: string,
  product: string,
  repeat: string,
  [gramsIn, gramsOut, cup = "", rinse = ""]: readonly [string, string, string?, string?],
  seconds: number | null = 15,
): ChewRow => ({
  ...{ panelist, product, repeat, seconds, gainPercent: null },
  readings: { gramsIn, gramsOut, cup, rinse },
});
