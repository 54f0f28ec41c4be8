import type { StudyState } from "../log/fold.ts";

/** When and on what the counted answers were given, by the tablets' own clocks and screens. */
export type Occasion = {
  first: string | null;
  last: string | null;
  tablets: number;
  /** Trays that were answered on paper, wholly or in part. */
  onPaper: number;
  screens: { widthPx: number; heightPx: number }[];
};

/** Reads the occasion off a folded study with full ballots. */
export function occasionOf(state: StudyState): Occasion {
  const counted = [...state.trays.values()].flatMap(({ counted }) => (counted ? [counted] : []));
  const times = counted.flatMap(({ answeredAt }) => (answeredAt === null ? [] : [answeredAt])).sort();
  const screens = new Map<string, { widthPx: number; heightPx: number }>();
  for (const { answers, marks } of counted) {
    for (const { screen } of [...answers.values(), ...marks.values()]) {
      if (screen === null) continue;
      const { widthPx, heightPx } = screen;
      screens.set(`${widthPx} ${heightPx}`, { widthPx, heightPx });
    }
  }
  return {
    first: times[0] ?? null,
    last: times.at(-1) ?? null,
    // where a ballot on paper was typed in is nothing on which somebody answered
    tablets: new Set(counted.flatMap(({ device, paper }) => (paper ? [] : [device]))).size,
    onPaper: counted.filter(({ paper }) => paper !== null).length,
    screens: [...screens.values()],
  };
}
