import type { KitchenRow } from "../model/kitchen-record.ts";
import type { StudyRecord } from "../model/record.ts";
import { reader } from "../words/en/reader.ts";

const words = reader.temperatures;

/** One batch of one wave. Texts; empty: not recorded. `served`: of the whole wave, since times of trays are those of people. */
export type BatchRow = { wave: number; batch: string; core: string; held: string; left: string; served: string };

/** Batches in the order of waves and of the plan's products, with what was read of them. */
export function batchRows({ temperatures, plan }: Pick<StudyRecord, "temperatures" | "plan">): BatchRow[] {
  const place = new Map(plan.products.map(({ id }, at) => [id, at]));
  const groups = new Map<string, KitchenRow[]>();
  for (const row of temperatures.filter(({ pot }) => pot !== "")) {
    const name = `${row.wave} ${row.pot}`;
    groups.set(name, [...(groups.get(name) ?? []), row]);
  }
  return [...groups.values()]
    .toSorted((a, b) => waveOf(a) - waveOf(b) || placeOf(a, place) - placeOf(b, place))
    .map((rows) => rowOf(rows, temperatures, plan));
}

const waveOf = (rows: readonly KitchenRow[]): number => rows[0]?.wave ?? 0;
const placeOf = (rows: readonly KitchenRow[], place: ReadonlyMap<string, number>): number =>
  place.get(rows[0]?.product ?? "") ?? place.size;

function rowOf(rows: readonly KitchenRow[], all: readonly KitchenRow[], plan: StudyRecord["plan"]): BatchRow {
  const [first] = rows;
  const of = (...what: KitchenRow["what"][]) => rows.filter((row) => what.includes(row.what));
  const product = plan.products.find(({ id }) => id === first?.product)?.name ?? "";
  const cores = of("core");
  const left = of("left", "left-cold").filter(({ latest }) => latest);
  const served = all.filter((row) => row.what === "served" && row.wave === first?.wave).map(({ time }) => time);
  const inTime = served.toSorted((a, b) => Date.parse(a) - Date.parse(b));
  const core = words.readings(cores.map(({ celsius }) => celsius));
  return {
    wave: first?.wave ?? 0,
    batch: first?.batch ? words.batchOf(product, first.batch) : (first?.pot ?? ""),
    core: cores.some(({ verdict, latest }) => latest && verdict === "allowed") ? `${core}, ${words.allowed}` : core,
    held: words.readings(of("held-hot", "held-cold").map(({ celsius }) => celsius)),
    left: left.map(({ time, what }) => (what === "left" ? words.at(time) : words.fromCold(words.at(time)))).join(", "),
    served: words.span(inTime[0] ?? "", inTime.at(-1) ?? ""),
    ...(inTime.length === 0 ? { served: "" } : {}),
  };
}

/** The limits that stand beside the readings, one sentence for each kind. */
export function limitsBeside(rows: readonly KitchenRow[]): string[] {
  return (["core", "held-hot", "held-cold"] as const).flatMap((what) => {
    const limits = rows.filter((row) => row.what === what).flatMap((row) => row.limits);
    const texts = limits.map((limit) => words.limit(limit.celsius, limit.heldSeconds, limit.restMinutes, limit.source));
    return texts.length === 0 ? [] : [words.against[what]([...new Set(texts)])];
  });
}

/** What was measured, in a line or two of the test report; empty where nothing was. */
export function measuredLines(rows: readonly KitchenRow[]): string[] {
  const cups = rows.filter(({ what }) => what === "serving").map(({ celsius }) => celsius);
  const cores = rows.filter(({ what }) => what === "core").length;
  return [...(cups.length > 0 ? [words.servedAt(cups)] : []), ...(cores > 0 ? [words.coresAre(cores)] : [])];
}
