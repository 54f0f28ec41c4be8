import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Method } from "../../../src/model/method.ts";
import { alternate, type Figure, figureOf, type Rounds } from "../pair.ts";
import { type Limit, short } from "../report.ts";

type Choice = typeof import("../../../src/analysis/choice.ts");
type PanelSize = typeof import("../../../src/design/panel-size.ts");
type SizeTest = typeof import("../../../src/design/size-test.ts");
type Normal = typeof import("../../../src/analysis/normal.ts");

/** Code that ships, as it is compiled for the terminal and the server. */
export const compiled = <T>(room: string): Promise<T> =>
  import(
    /* @vite-ignore */ pathToFileURL(join(import.meta.dirname, `../../../dist/rooms/${room}.js`)).href
  ) as Promise<T>;

/** One frame of a screen, and how long one distance with its intervals may take. */
const frameMs = 16.7;
const distanceMs = 5;

const choices = ["triangle", "duo-trio", "paired-difference", "three-alternative", "tetrad"] as const;

export type Answers = { figures: Figure[]; limits: Limit[]; load: number[] };

/**
 * What a person waits for: one result with its distance and intervals, and the panel size at a place of the sliders.
 *
 * The baseline is one root of the normal distribution by halving to the last digit, a job of the same kind and of a
 * known size, so that a ratio can be read on any machine; the limits are of milliseconds.
 */
export async function answers(quick: boolean): Promise<Answers> {
  const rounds = quick ? 3 : 9;
  const { normalLower } = await normal();
  const root = (): number => timeOf(2000, (at) => rootOf(normalLower, 0.001 + (at % 997) / 1000));
  const distance = await distances();
  const size = await sizes();
  const found = {
    distance: await alternate(rounds, { baseline: async () => root(), ours: async () => distance() }),
    size: await alternate(rounds, { baseline: async () => root(), ours: async () => size.once() }),
  };
  const slowest = Math.max(...Array.from({ length: rounds }, size.slowest));
  const figures = [
    figureOfRounds("one d-prime with its exact, profile and other intervals, against one root", found.distance),
    figureOfRounds("a panel size with its teeth, mean over the places of the sliders, against one root", found.size),
  ];
  const [one] = figures;
  const median = one?.ours.median ?? Number.NaN;
  return {
    figures,
    limits: [
      { grade: "must", text: `one d-prime under ${distanceMs} ms (${short(median)})`, met: median < distanceMs },
      {
        grade: "must",
        text: `the slowest place of the sliders under one frame, ${frameMs} ms (${short(slowest)})`,
        met: slowest < frameMs,
      },
    ],
    load: [...found.distance.load, ...found.size.load],
  };
}

const figureOfRounds = (name: string, { baseline, ours }: Rounds<number>): Figure =>
  figureOf(name, "ms", baseline, ours);

/** The lower tail of the normal distribution. */
async function normal(): Promise<{ normalLower: (x: number) => number }> {
  return compiled<Normal>("analysis/normal");
}

function rootOf(lower: (x: number) => number, share: number): number {
  let [low, high] = [-10, 10];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (lower(middle) < share) low = middle;
    else high = middle;
  }
  return low;
}

/** Milliseconds of one call, mean of many. */
function timeOf(calls: number, call: (at: number) => unknown): number {
  const start = performance.now();
  for (let at = 0; at < calls; at++) call(at);
  return (performance.now() - start) / calls;
}

/** Every method in turn, with other counts each time. */
async function distances(): Promise<() => number> {
  const { choiceStatistics } = await compiled<Choice>("analysis/choice");
  return () =>
    timeOf(100, (at) => {
      const method = choices[at % choices.length] ?? "triangle";
      const judgments = 12 + (at % 60);
      const correct = Math.ceil(judgments * (0.55 + (at % 5) / 12));
      return choiceStatistics({ method, goal: "difference", alpha: 0.05, judgments, correct });
    });
}

/**
 * All places of the sliders: every choice method, risks, and effects from small to large (of same-different and A-not-A
 * as a distance). Each is answered as the plan's page does: how many, the teeth, and what a panel of 24 finds.
 */
async function sizes(): Promise<{ once: () => number; slowest: () => number }> {
  const { sizeOf, saw, findableBy } = await compiled<PanelSize>("design/panel-size");
  const { differenceTest } = await compiled<SizeTest>("design/size-test");
  const alphas = [0.01, 0.05, 0.1, 0.2];
  const placesOf = (methods: readonly Method[], effects: readonly number[]) =>
    methods.flatMap((method) => alphas.flatMap((alpha) => effects.map((share) => ({ method, alpha, share }))));
  const places = [
    ...placesOf([...choices, "paired-preference"], [0.15, 0.2, 0.3, 0.4, 0.5, 0.8]),
    ...placesOf(["same-different", "a-not-a"], [1, 1.5, 2, 3]),
  ];
  const answer = ({ method, alpha, share }: (typeof places)[number]) => {
    const test = differenceTest(method, alpha, share);
    return [sizeOf(test, 0.8), saw(test, 6, 66), findableBy(test, 24)];
  };
  return {
    once: () => timeOf(places.length, (at) => places[at] && answer(places[at])),
    // each place the best of three: another program's turn is not ours
    slowest: () => Math.max(...places.map((place) => Math.min(...[1, 2, 3].map(() => timeOf(1, () => answer(place)))))),
  };
}
