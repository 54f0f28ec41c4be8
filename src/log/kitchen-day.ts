import type { haltReasons } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import { isUndercooked } from "../model/undercooked.ts";
import { circleOf, potsOfWave } from "./day-batches.ts";
import { type Block, blocksOfPot, type Clocks, clocksOf } from "./day-blocks.ts";
import { type DayEntries, entriesOf, type KitchenFact, kitchenFactsOf, type VoidedEntry } from "./day-entries.ts";
import { isAllowed, limitsOf, type PotDay, potDay } from "./day-pots.ts";
import { type TrayDay, traysOfDay } from "./day-trays.ts";
import { type FactOf, within } from "./fact.ts";
import type { StudyState } from "./fold.ts";

/** What nobody wrote down yet of a wave. */
export type Missing = { what: "core" | "left"; pot: string } | { what: "serving" };

/** A wave as it stands: what blocks it and how it is with its window, of all pots together, so that no product shows. */
export type WaveDay = Clocks & {
  wave: number;
  /** Trays that are served with it, people who were moved here among them. */
  trays: number[];
  pots: PotDay[];
  blocked: Block[];
  missing: Missing[];
  servings: FactOf<"serving-read">[];
  changes: FactOf<"batch-changed">[];
  /** Pots whose changes follow each other in a circle; the wave is then served from each of them, and each has to pass. */
  circle: string[];
};

export type Halt = { id: string; at: string; why: (typeof haltReasons)[number] };

export type KitchenDay = {
  /** What readings are held against: limits of the plan; none: it has none; not-cooked: none of cooking applies. */
  limits: "some" | "not-cooked" | "none";
  /** Do pots have labels? Studies that were locked by an older Cloche have none, and nothing is judged there. */
  labeled: boolean;
  waves: WaveDay[];
  trays: Map<number, TrayDay>;
  /** Halts that no entry has ended: they hold back every wave. */
  halts: Halt[];
  /** Papers with the key: which were printed, and which are back. */
  sheets: { paper: (typeof withKey)[number]; back: FactOf<"sheet-returned">[] }[];
  voided: VoidedEntry[];
  /** Entries of waves or pots that the study does not have, and exceptions of nobody who may allow them: shown, never used. */
  strays: KitchenFact[];
};

/**
 * The kitchen's day.
 *
 * Takes    state: a folded study; now: milliseconds since 1970, for what time decides
 * Returns  the same for the same facts in any order; null before the lock. It reads no clock: times are those that
 *          entries say in their bodies
 */
export function dayOf(state: StudyState, now: number): KitchenDay | null {
  if (!state.lock) return null;
  const heads = state.reveal?.body.heads ?? null;
  // a sheet that is printed once the key is open gives nothing away
  const papers = state.papers.filter((fact) => within(fact, heads));
  return dayOfFacts(state.lock, kitchenFactsOf(state), papers, now);
}

/** The same from a part of the facts: what the log had at hand by then. */
export function dayOfFacts(
  lock: FactOf<"study-locked">,
  facts: readonly KitchenFact[],
  papers: readonly FactOf<"paper-printed">[],
  now: number,
): KitchenDay {
  const { plan, packet, pots = [] } = lock.body;
  const entries = entriesOf(facts);
  const trays = traysOfDay(packet, entries, plan.waves.length);
  const halts = haltsOf(entries);
  const waves = pots.map(({ wave, pots: labels }) => waveDay({ wave, labels, plan, entries, trays, now }));
  const some = limitsOf(plan).length > 0;
  return {
    limits: some ? (plan.uncooked ? "not-cooked" : "some") : "none",
    labeled: pots.length > 0,
    waves,
    trays,
    halts,
    sheets: sheetsOf(papers, entries),
    voided: entries.voided,
    strays: straysOf(entries, plan, waves, trays),
  };
}

type OneWave = {
  wave: number;
  labels: readonly string[];
  plan: Plan;
  entries: DayEntries;
  trays: ReadonlyMap<number, TrayDay>;
  now: number;
};

/** One wave by some of the entries: `labels` are those that the lock gives it. */
export function waveDay({ wave, labels, plan, entries, trays, now }: OneWave): WaveDay {
  const halts = haltsOf(entries);
  const changes = entries.of("batch-changed").filter(({ body }) => body.wave === wave);
  const mine = [...trays.values()].filter((tray) => (tray.wave ?? tray.planned) === wave).map(({ tray }) => tray);
  const pots = potsOfWave(labels, mine, changes).map((served) => potDay(served, wave, plan, entries));
  const serving = pots.filter((pot) => pot.toServe.length > 0);
  const limits = limitsOf(plan);
  const servings = entries.of("serving-read").filter(({ body }) => body.wave === wave);
  return {
    wave,
    trays: mine,
    pots,
    blocked: [
      ...halts.map(({ why }): Block => ({ why: "halted", halt: why })),
      ...serving.flatMap((pot) => blocksOfPot(pot, limits, isTimed(plan), now)),
    ],
    ...clocksOf(serving, plan, limits, now),
    missing: [
      ...serving.flatMap((pot) => missingOf(pot, plan)),
      ...(servings.length === 0 && plan.serving.servingCelsius !== null ? [{ what: "serving" as const }] : []),
    ],
    servings,
    changes,
    circle: circleOf(changes),
  };
}

/** Raw food by design is timed as cooked food is; of what need not be cooked at all nobody writes when it left what. */
const isTimed = (plan: Plan): boolean => !plan.uncooked || isUndercooked(plan);

const missingOf = ({ pot, core, left }: PotDay, { uncooked }: Plan): Missing[] => [
  ...(core === "not-read" ? [{ what: "core" as const, pot }] : []),
  ...(left === null && !uncooked ? [{ what: "left" as const, pot }] : []),
];

function haltsOf(entries: DayEntries): Halt[] {
  const ended = new Set(entries.of("serving-resumed").flatMap(({ body }) => body.halts));
  return entries
    .of("serving-halted")
    .filter(({ id }) => !ended.has(id))
    .map(({ id, at, body }) => ({ id, at, why: body.why }));
}

const withKey = ["kitchen-by-product", "kitchen-by-tray"] as const;

const sheetsOf = (papers: readonly FactOf<"paper-printed">[], entries: DayEntries): KitchenDay["sheets"] =>
  withKey
    .filter((paper) => papers.some(({ body }) => body.paper === paper))
    .map((paper) => ({ paper, back: entries.of("sheet-returned").filter(({ body }) => body.paper === paper) }));

function straysOf(
  entries: DayEntries,
  plan: Plan,
  waves: readonly WaveDay[],
  trays: ReadonlyMap<number, TrayDay>,
): KitchenFact[] {
  const known = new Set(waves.flatMap(({ wave, pots }) => pots.map(({ pot }) => `${wave} ${pot}`)));
  const labels = new Set(waves.flatMap(({ pots }) => pots.map(({ pot }) => pot)));
  const below = new Set(
    waves.flatMap(({ pots }) =>
      pots.flatMap(({ cores }) => cores.flatMap(({ entry, allowed }) => (allowed ? [entry.id] : []))),
    ),
  );
  const foreign = (wave: number): boolean => !waves.some((each) => each.wave === wave);
  return [
    ...entries.of("core-read").filter(({ body }) => !labels.has(body.pot)),
    ...[...entries.of("heat-left"), ...entries.of("holding-read")].filter(
      ({ body }) => !known.has(`${body.wave} ${body.pot}`),
    ),
    ...[...entries.of("batch-changed"), ...entries.of("serving-read")].filter(({ body }) => foreign(body.wave)),
    ...[...entries.of("tray-handled"), ...entries.of("person-noted")].filter(({ body }) => !trays.has(body.tray)),
    ...entries.of("cooking-excepted").filter(({ body }) => !below.has(body.reading) || !isAllowed(plan, body.by)),
  ];
}
