import { leastForVerdict, type outcomes } from "../model/outcome.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Caveat, PortionsResult } from "../model/result.ts";
import type { ChewResult } from "../model/result-chew.ts";
import type { ServedPortion } from "../model/served-portion.ts";
import { caveatsOfStudy } from "./caveats.ts";
import type { ChewRow } from "./chew-portion.ts";
import { type ChewPlan, chewResult } from "./chew-weigh.ts";
import { servedPortions } from "./portion-rows.ts";
import { studyPart } from "./study-part.ts";

/** As `analyse`, for chewed portions: of a seat and product the mean of its portions counts once. */
export function analysePortions(record: StudyRecord, app: string): PortionsResult {
  const { plan } = record;
  const portions = servedPortions(record);
  const counted = portions.filter(({ leftOut }) => leftOut === null);
  const planned = chewPlanOf(record);
  const masses = chewResult(rowsOf(record, counted), planned, app);
  const compared = counted.filter(({ product }) => product !== plan.chew.control);
  const people = new Set(compared.map(({ seat }) => seat)).size;
  const orders = ordersOf(portions);
  const served = servedOn(counted);
  return {
    ...{ v: 1, app },
    study: studyPart(record, served, app),
    ...{ family: "portions", method: "chew-and-weigh", goal: "difference", sides: "two" },
    ...{ alpha: plan.alpha, confidence: planned.confidence, people, judgments: compared.length },
    products: plan.products.filter(({ id }) => id !== plan.chew.control).map(({ name }) => name),
    outcome: outcomeOf(record.keyMatches, masses, plan.alpha),
    masses,
    orders,
    caveats: [
      ...caveatsOfStudy(
        record,
        served,
        belowPlan(record, people),
        orders.map(({ judgments }) => judgments),
      ),
      ...(masses.unit === "panelist" && people > 0
        ? [{ what: "this-panel-only" as const, standsFor: plan.standsFor }]
        : []),
    ],
    departures: record.departures,
  };
}

/**
 * The result of portions from a file, without a study: nothing is known of how they were served.
 *
 * Takes    plan: as `chewResult`, of which the confidence is 1 - alpha; rows: none that `chewRefusalOf` refuses
 */
export function resultOfPortionRows(
  { alpha, ...plan }: Omit<ChewPlan, "confidence"> & { alpha: number },
  rows: readonly ChewRow[],
  app: string,
): PortionsResult {
  const confidence = 1 - alpha;
  const masses = chewResult(rows, { ...plan, confidence }, app);
  const compared = rows.filter(({ product }) => product !== plan.control);
  return {
    ...{ v: 1, app, study: null, family: "portions", method: "chew-and-weigh", goal: "difference", sides: "two" },
    ...{ alpha, confidence, people: new Set(compared.map(({ panelist }) => panelist)).size },
    ...{ judgments: compared.length, products: masses.products, outcome: outcomeOf(true, masses, alpha), masses },
    ...{ orders: [], caveats: [], departures: [] },
  };
}

/** How a study's portions are judged: what `cloche result` is asked with for a file of them. */
export function chewPlanOf({ plan }: StudyRecord): ChewPlan {
  const { control, matters, seconds, balanceStep } = plan.chew;
  return {
    control: plan.products.find(({ id }) => id === control)?.name ?? null,
    ...{ matters, plannedSeconds: seconds, balanceStep, confidence: 1 - plan.alpha },
  };
}

/** Portions as the terminal reads them from a file: the seat is the panelist. */
function rowsOf({ plan }: StudyRecord, portions: readonly ServedPortion[]): ChewRow[] {
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  return portions.map(({ seat, product, repeat, readings, seconds }) => ({
    ...{ panelist: `seat ${seat}`, product: names.get(product) ?? product, repeat: String(repeat) },
    ...{ readings, gainPercent: null, seconds },
  }));
}

/**
 * By the rule locked beforehand: some product's gain differs from that of the first one, each of several at an even share
 * of the risk. A few people, or portions of one person, show numbers only.
 */
function outcomeOf(keyMatches: boolean, { unit, differences }: ChewResult, alpha: number): (typeof outcomes)[number] {
  if (!keyMatches) return "withheld";
  const units = differences.map(({ units: [one, other] }) => (unit === "panelist" ? one : one + other));
  if (Math.max(0, ...units) < leastForVerdict) return "too-few";
  const share = alpha / Math.max(1, differences.length);
  const shown = differences.some(({ test }, at) => (units[at] ?? 0) >= leastForVerdict && (test?.pValue ?? 1) <= share);
  return shown ? "reached" : "not-reached";
}

/** Fewer people than planned; of one person alone, fewer portions say it. */
const belowPlan = ({ plan }: StudyRecord, people: number): Caveat | null =>
  people < plan.people ? { what: "people-below-plan", planned: plan.people, answered: people } : null;

type Counted = PortionsResult["orders"];

/** Trays with a chewed portion by the order in which their products were served. */
function ordersOf(portions: readonly ServedPortion[]): Counted {
  const trays = new Map(portions.map(({ tray, order }) => [tray, order]));
  return [...new Set(trays.values())].sort().map((order) => ({
    order,
    judgments: [...trays.values()].filter((each) => each === order).length,
    correct: null,
  }));
}

/** What was chewed and counts, for what is said of batches. */
function servedOn(portions: readonly ServedPortion[]): { tray: number; samples: ServedPortion[] }[] {
  const trays = new Map<number, ServedPortion[]>();
  for (const portion of portions) trays.set(portion.tray, [...(trays.get(portion.tray) ?? []), portion]);
  return [...trays].map(([tray, samples]) => ({ tray, samples }));
}
