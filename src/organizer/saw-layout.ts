import type { SawPoint } from "../design/panel-size.ts";

export type SawLayout = {
  width: number;
  height: number;
  /** Where the plot begins and ends, from left to right. */
  from: number;
  to: number;
  radius: number;
  levels: { y: number; text: string; goal: boolean }[];
  dots: { people: number; x: number; y: number }[];
  choice: { x: number; y: number } | null;
  ticks: { people: number; x: number; chosen: boolean; anchor: "start" | "middle" }[];
};

const left = 44;
const right = 8;
const top = 14;
const bottom = 40;
const plotHeight = 190;
/** Room for the word at the end of the axis, and between two numbers on it. */
const axisWord = 64;
const tickRoom = 44;

/**
 * Where everything of the saw picture goes, in CSS pixels for the width at hand (so that text keeps its size).
 * Takes points in order of people; the choice need not be among them.
 */
export function sawLayout(
  points: readonly Pick<SawPoint, "people" | "power">[],
  chosen: number,
  width: number,
): SawLayout {
  const to = Math.max(left + 60, width - right);
  const first = points[0]?.people ?? 0;
  const last = points.at(-1)?.people ?? 1;
  const x = (people: number) => round(left + ((people - first) / Math.max(1, last - first)) * (to - left));
  const y = (chance: number) => round(top + (1 - chance) * plotHeight);
  const dots = points.map(({ people, power }) => ({ people, x: x(people), y: y(power) }));
  const mine = dots.find(({ people }) => people === chosen);
  const room = to - axisWord;
  const step = [6, 12, 24, 30, 60].find((each) => x(first + each) - x(first) >= tickRoom) ?? 120;
  const ticks = [chosen, ...points.map(({ people }) => people).filter((people) => people % step === 0)];
  const shown: SawLayout["ticks"] = [];
  for (const people of ticks) {
    const at = x(people);
    const inPlot = at >= left - 1 && at <= to && (people === chosen ? mine !== undefined : at <= room);
    const free = shown.every((tick) => Math.abs(tick.x - at) >= tickRoom * 0.7);
    const underWord = people === chosen && at > room;
    if (inPlot && free && !underWord) shown.push({ people, x: at, chosen: people === chosen, anchor: "middle" });
  }
  return {
    width: Math.max(width, to + right),
    height: top + plotHeight + bottom,
    from: left,
    to,
    radius: last - first > 120 ? 2.2 : 3.2,
    levels: [100, 80, 60, 40, 20].map((text) => ({ y: y(text / 100), text: String(text), goal: text === 80 })),
    dots: dots.filter(({ people }) => people !== chosen),
    choice: mine ? { x: mine.x, y: mine.y } : null,
    ticks: shown.sort((a, b) => a.people - b.people),
  };
}

const round = (value: number): number => Math.round(value * 10) / 10;
