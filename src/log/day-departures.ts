import type { Departure } from "../model/record.ts";
import type { Block } from "./day-blocks.ts";
import { entriesOf, type KitchenFact } from "./day-entries.ts";
import type { PotDay } from "./day-pots.ts";
import type { PotNames } from "./day-served.ts";
import { type TrayDay, traysOfDay } from "./day-trays.ts";
import type { FactOf } from "./fact.ts";
import { type KitchenDay, type WaveDay, waveDay } from "./kitchen-day.ts";

type Core = Extract<Departure, { what: "core-below" }>;
type Ended = Core["ended"];

/** What of the kitchen's day did not go by the plan: batches, what was served when it was held back, people, papers, entries. */
export function departuresOfDay(
  day: KitchenDay,
  lock: FactOf<"study-locked">,
  facts: readonly KitchenFact[],
  nameOf: PotNames,
): Departure[] {
  const logged = day.waves.some(({ pots }) =>
    pots.some(({ cores, leftEntries }) => cores.length + leftEntries.length > 0),
  );
  return [
    ...day.waves.flatMap(({ wave, pots, missing, changes }) => [
      ...(logged ? missing : []).flatMap((each): Departure[] =>
        each.what === "serving"
          ? []
          : [{ what: "not-written-down", ...batchOf(wave, each.pot, nameOf), lacks: each.what }],
      ),
      ...pots.flatMap((pot) => departuresOfPot(wave, pot, nameOf)),
      ...changes.map((change) => departureOfChange(change, nameOf)),
    ]),
    ...departuresOfServing(day, lock, facts),
    ...[...day.trays.values()].flatMap(departuresOfTray),
    ...haltsOf(day, facts),
    ...day.sheets
      .filter(({ back }) => back.length === 0)
      .map(({ paper }): Departure => ({ what: "sheet-not-returned", paper })),
    ...day.strays.flatMap((stray): Departure[] =>
      stray.kind === "cooking-excepted"
        ? [{ what: "exception-refused", by: stray.body.by, note: stray.body.note }]
        : [],
    ),
    // readings of the balance are told by whatever tells of portions
    ...day.voided
      .filter(({ entry }) => entry.kind !== "portion-weighed")
      .map(({ entry, by }): Departure => ({ what: "entry-voided", kind: entry.kind, note: by.body.note })),
  ];
}

const batchOf = (wave: number, pot: string, nameOf: PotNames) => {
  const named = nameOf(pot);
  return { wave, product: named?.product ?? null, batch: named?.batch ?? pot };
};

function departuresOfPot(wave: number, pot: PotDay, nameOf: PotNames): Departure[] {
  const list: Departure[] = [];
  const of = batchOf(wave, pot.pot, nameOf);
  const served = pot.trays.length > 0;
  const cores = pot.cores.filter(({ entry }) => entry.body.wave === wave);
  const cold = cores.find(({ verdict }) => verdict.verdict === "below");
  if (cold?.verdict.verdict === "below") {
    const allowed = cores.find((each) => each.allowed)?.allowed;
    list.push({
      ...{ what: "core-below", ...of, celsius: cores.map(({ entry }) => entry.body.celsius) },
      limit: Math.max(...cold.verdict.rows.map(({ celsius }) => celsius)),
      ended: served ? coreEnd(pot) : "replaced",
      ...{ by: allowed?.body.by.trim() ?? "", note: allowed?.body.note ?? lastNote(cores) },
    });
  }
  for (const held of ["hot", "cold"] as const) {
    const readings = pot.holdings.filter(({ entry }) => entry.body.held === held);
    const past = readings.find(({ verdict }) => verdict.verdict === "past");
    if (past?.verdict.verdict !== "past") continue;
    const last = readings.filter(({ latest }) => latest).map(({ verdict }) => verdict.verdict === "past");
    const ended = last.every((each) => each) ? "below" : last.some((each) => each) ? "apart" : "met";
    list.push({
      ...{ what: "held-past", ...of, held, celsius: readings.map(({ entry }) => entry.body.celsius) },
      ...{ limit: past.verdict.celsius, ended: served ? ended : "replaced" },
    });
  }
  return list;
}

const lastNote = (cores: PotDay["cores"]): string =>
  cores.map(({ entry }) => entry.body.note.trim()).findLast((note) => note !== "") ?? "";

const coreEnd = ({ core }: PotDay): Ended => (core === "not-needed" || core === "not-read" ? "met" : core);

function departureOfChange({ body }: FactOf<"batch-changed">, nameOf: PotNames): Departure {
  const { wave, pot, becomes, reason, trays, kept, note } = body;
  const now = nameOf(becomes)?.batch ?? becomes;
  return { what: "batch-changed", ...batchOf(wave, pot, nameOf), becomes: now, reason, trays, kept, note };
}

/**
 * Trays that were noted as served while their wave was held back or outside of its window, by the log as it was then. What
 * the same device wrote before is known by its numbers; of others only their clocks tell.
 */
function departuresOfServing(
  day: KitchenDay,
  lock: FactOf<"study-locked">,
  facts: readonly KitchenFact[],
): Departure[] {
  const blocked = new Map<string, Extract<Departure, { what: "served-blocked" }>>();
  const outside = new Map<string, Extract<Departure, { what: "served-outside-window" }>>();
  const { windowFrom: from, windowTo: to } = lock.body.plan.pace;
  for (const { tray, served } of servedTrays(day)) {
    const known = facts.filter((fact) =>
      fact.device === served.device ? fact.seq < served.seq : fact.at <= served.at,
    );
    const then = waveThen(tray, lock, known, Date.parse(served.at));
    if (then === null) continue;
    const { wave } = then;
    for (const why of new Set(then.blocked.map((block: Block) => block.why))) {
      const name = `${wave} ${why}`;
      const before = blocked.get(name) ?? { what: "served-blocked", wave, why, trays: [] };
      blocked.set(name, { ...before, trays: [...before.trays, tray] });
    }
    if (then.window !== "past" && then.window !== "not-yet") continue;
    const side = then.window === "past" ? "past" : "before";
    const before = outside.get(`${wave} ${side}`) ?? { what: "served-outside-window", wave, side, trays: [], from, to };
    outside.set(`${wave} ${side}`, { ...before, trays: [...before.trays, tray] });
  }
  return [...blocked.values(), ...outside.values()];
}

const servedTrays = (day: KitchenDay) =>
  [...day.trays.values()].flatMap(({ tray, turns }) => {
    const [served] = turns.served.entries;
    return served ? [{ tray, served }] : [];
  });

/** The wave that a tray was served with, as the log had it then: a tray may be noted with another one later. */
function waveThen(
  tray: number,
  { body: { plan, packet, pots = [] } }: FactOf<"study-locked">,
  known: readonly KitchenFact[],
  now: number,
): WaveDay | null {
  const entries = entriesOf(known);
  const trays = traysOfDay(packet, entries, plan.waves.length);
  const with_ = trays.get(tray);
  const wave = with_?.wave ?? with_?.planned;
  const labels = pots.find((each) => each.wave === wave)?.pots;
  return wave === undefined || !labels ? null : waveDay({ wave, labels, plan, entries, trays, now });
}

function departuresOfTray({ tray, planned, wave, turns, person }: TrayDay): Departure[] {
  const list: Departure[] = [];
  const last = person.entries.filter(({ id }) => person.latest.includes(id));
  const note = last.map(({ body }) => body.note.trim()).find((each) => each !== "") ?? "";
  const state = person.apart ? "apart" : person.what === "here" ? (wave === planned ? null : "moved") : person.what;
  if (person.noWave !== null) list.push({ what: "person-noted", tray, state: "no-wave", wave: person.noWave, note });
  else if (state) list.push({ what: "person-noted", tray, state, wave: wave === planned ? null : wave, note });
  if (turns.served.done && !(turns.checked.sound && turns.filled.sound && turns.served.sound)) {
    const wrong = Object.values(turns).flatMap(({ entries }) => entries.filter(({ body }) => !body.sound));
    list.push({
      what: "tray-unsound",
      tray,
      note: wrong.map(({ body }) => body.note.trim()).find((each) => each !== "") ?? "",
    });
  }
  return list;
}

function haltsOf(day: KitchenDay, facts: readonly KitchenFact[]): Departure[] {
  const open = new Set(day.halts.map(({ id }) => id));
  return entriesOf(facts)
    .of("serving-halted")
    .map(({ id, body }) => ({ what: "serving-halted", why: body.why, resumed: !open.has(id) }));
}
