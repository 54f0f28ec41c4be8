import { gramsOf } from "../model/grams.ts";
import { leastForVerdict } from "../model/outcome.ts";
import { stepOf } from "../model/portion-check.ts";
import type { ChewResult, ChewWarning } from "../model/result-chew.ts";
import type { ChewRow } from "./chew-portion.ts";
import type { ChewPlan, Portion } from "./chew-weigh.ts";

/** A chew is off its planned seconds by more than this (common practice, no source). */
const secondsOff = 1;

type Found = Omit<ChewResult, "warnings">;

/** What limits the result of chewed portions, as facts; words make sentences of them. */
export function chewWarnings(
  rows: readonly ChewRow[],
  portions: readonly Portion[],
  plan: ChewPlan,
  found: Found,
): ChewWarning[] {
  return [...whoTookPart(portions, found), ...timing(portions, plan, found), ...coarse(rows, plan, found)];
}

function whoTookPart(portions: readonly Portion[], found: Found): ChewWarning[] {
  const people = [...new Set(portions.map(({ panelist }) => panelist))];
  const counts = found.panelists.filter(({ product }) => product !== found.control).map((each) => each.portions);
  const [fewest, most] = [Math.min(...counts), Math.max(...counts)];
  const had = (panelist: string, product: string) =>
    found.panelists.some((each) => each.panelist === panelist && each.product === product);
  const judged = Math.max(0, ...found.differences.map(({ units: [pairs] }) => pairs));
  const chewed = Math.max(0, ...found.differences.map(({ units: [one, other] }) => one + other));
  const compared = found.differences.length > 0;
  const few = compared && found.unit === "panelist" && judged < leastForVerdict;
  const fewPortions = compared && found.unit === "portion" && chewed < leastForVerdict;
  return [
    ...(found.unit === "portion" ? [{ what: "one-person" as const, panelist: people[0] ?? "" }] : []),
    ...(fewPortions ? [{ what: "few-portions" as const, portions: chewed, least: leastForVerdict }] : []),
    ...(few ? [{ what: "few-people" as const, people: judged, least: leastForVerdict }] : []),
    ...found.differences.flatMap(({ first, second }): ChewWarning[] => {
      const left = people.filter(
        (panelist) => found.unit === "panelist" && had(panelist, first) !== had(panelist, second),
      );
      return left.length > 0 ? [{ what: "left-out", second, panelists: left }] : [];
    }),
    ...(fewest < most ? [{ what: "repeats-differ" as const, fewest, most }] : []),
  ];
}

/** What a difference of chewing times may pretend: mass rises about evenly with chewing (a published finding). */
function timing(portions: readonly Portion[], { plannedSeconds }: ChewPlan, found: Found): ChewWarning[] {
  const unknown = portions.filter(({ seconds }) => seconds === null).length;
  if (unknown > 0) return [{ what: "seconds-unknown", portions: unknown, of: portions.length }];
  const off = portions.filter(({ seconds }) => Math.abs((seconds ?? 0) - (plannedSeconds ?? 0)) > secondsOff).length;
  const missed = plannedSeconds !== null && off > 0;
  return [
    ...(missed ? [{ what: "seconds-off" as const, portions: off, of: portions.length, planned: plannedSeconds }] : []),
    ...found.differences.flatMap(({ first, second, percentagePoints }): ChewWarning[] => {
      const [one, other] = [first, second].map((product) => found.means.find((mean) => mean.product === product));
      const [from, to] = [one?.seconds ?? null, other?.seconds ?? null];
      const gain = one?.gainPercent.estimate ?? null;
      if (from === null || to === null || gain === null || from <= 0) return [];
      const seconds = to - from;
      const points = (seconds * gain) / from;
      const effect = found.matters ?? percentagePoints.estimate ?? 0;
      return Math.abs(points) > Math.abs(effect) / 4
        ? [{ what: "seconds-differ", first, second, seconds, points }]
        : [];
    }),
  ];
}

/** Twice the balance's step against the smallest portion, where that is more than a quarter of what is to be seen. */
function coarse(rows: readonly ChewRow[], { balanceStep }: ChewPlan, found: Found): ChewWarning[] {
  const read = rows.flatMap(({ readings }) => (readings ? [readings] : []));
  const seen = found.differences[0]?.percentagePoints.estimate ?? null;
  const effect = found.matters ?? (seen === null ? null : Math.abs(seen));
  if (read.length === 0 || effect === null) return [];
  const step = Math.max(
    ...read.flatMap(({ gramsIn, gramsOut }) => [gramsIn, gramsOut].map((text) => stepOf(text, balanceStep))),
  );
  const grams = Math.min(...read.map(({ gramsIn }) => gramsOf([gramsIn])));
  const points = (100 * 2 * step) / grams;
  if (points <= effect / 4) return [];
  return [{ what: "coarse", balanceStep: step, grams, points, effect, sought: found.matters !== null }];
}
