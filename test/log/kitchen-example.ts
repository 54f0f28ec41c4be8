import { headsOf } from "../../src/log/chain.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import type { Body, Fact } from "../../src/model/event.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import { limitTables, type SafetyLimit } from "../../src/model/safety-limit.ts";
import { lead, study, Writer } from "./example.ts";

/** Poultry as US authorities advise consumers (chart of safe temperatures, two-hour rule; see test/model/safety-check). */
export const poultry: SafetyLimit[] = limitTables.consumer.filter(
  (limit) => limit.kind !== "cooking" || limit.food.startsWith("Poultry"),
);

export const [current, steamed] = [
  "33333333-3333-4333-8333-333333333333",
  "44444444-4444-4444-8444-444444444444",
] as const;

type LockBody = Body<"study-locked">;

/** Six trays and a spare in two waves, each served from two pots: KT and MV, then PW and RZ. */
export function kitchenLock(writer: Writer, plan: Partial<Plan> = {}, pots: LockBody["pots"] | null = undefined): Fact {
  const { body } = new Writer().lock() as Extract<Fact, { kind: "study-locked" }> & { outline: false };
  const codes = ["482", "715", "309"];
  const waves = [1, 1, 1, 2, 2, 2, 2];
  return writer.write(lead, "study-locked", {
    ...body,
    plan: {
      ...body.plan,
      limits: poultry,
      pace: { ...body.plan.pace, windowFrom: 4, windowTo: 15 },
      waves: [1, 2].map((at) => ({
        id: `55555555-5555-4555-8555-55555555555${at}`,
        ...{ starts: "", people: 3, session: "" },
        batches: { [current]: [`current ${at}`], [steamed]: [`new ${at}`] },
      })),
      ...plan,
    },
    packet: {
      ...body.packet,
      trays: waves.map((wave, at) => ({ tray: at + 1, wave, spare: at === 6, codes })),
    },
    ...(pots === null
      ? {}
      : {
          pots: pots ?? [
            { wave: 1, pots: ["KT", "MV"] },
            { wave: 2, pots: ["PW", "RZ"] },
          ],
        }),
  });
}

/** Writes what a kitchen writes down, with the fields that a test does not care for filled in. */
export class Cook {
  readonly facts: Fact[];
  readonly writer = new Writer();

  constructor(plan: Partial<Plan> = {}, pots?: LockBody["pots"] | null) {
    this.facts = [kitchenLock(this.writer, plan, pots)];
  }

  /** As it was locked. */
  get plan(): Plan {
    const [locked] = this.facts;
    if (locked?.kind !== "study-locked" || locked.outline) throw new Error("not locked");
    return locked.body.plan;
  }

  note<K extends Fact["kind"]>(kind: K, body: Body<K>, device = lead): string {
    const fact = this.writer.write(device, kind, body);
    this.facts.push(fact);
    return fact.id;
  }

  core(wave: number, pot: string, celsius: string, more: Partial<Body<"core-read">> = {}): string {
    return this.note("core-read", {
      ...{ wave, pot, celsius, heldSeconds: 0, restMinutes: 0, probe: "", after: [], note: "" },
      ...more,
    });
  }

  left(wave: number, pot: string, clock: string, after: string[] = [], from: "hot" | "cold" = "hot"): string {
    return this.note("heat-left", { wave, pot, left: `2026-05-03T${clock}:00.000Z`, from, after, note: "" });
  }

  /** These pots left the heat ten minutes before noon. */
  out(wave: number, ...pots: string[]): void {
    for (const pot of pots) this.left(wave, pot, "11:50");
  }

  held(wave: number, pot: string, held: "hot" | "cold", celsius: string, after: string[] = [], clock = ""): string {
    const read = clock === "" ? null : `2026-05-03T${clock}:00.000Z`;
    return this.note("holding-read", { wave, pot, held, celsius, read, after, note: "" });
  }

  change(wave: number, pot: string, becomes: string, trays: number[] = [], kept: number[] = []): string {
    return this.note("batch-changed", { wave, pot, becomes, reason: "recooked", trays, kept, note: "" });
  }

  turn(tray: number, turn: "filled" | "checked" | "served", sound = true, after: string[] = []): string {
    return this.note("tray-handled", { tray, turn, sound, after, note: "" });
  }

  person(tray: number, what: "late" | "missing" | "here", wave: number | null = null, after: string[] = []): string {
    return this.note("person-noted", { tray, what, wave, after, note: "" });
  }

  void(target: string): string {
    return this.note("entry-voided", { target, note: "typed wrong" });
  }
}

/** Milliseconds since 1970 of a time of the day of these tests. */
export const at = (clock: string): number => Date.parse(`2026-05-03T${clock}:00.000Z`);

/** The key of the example: "new" twice and "current" once on every tray, each wave from its own batches. */
function openedKey(): Body<"key-revealed">["opened"] {
  const trays = [1, 1, 1, 2, 2, 2, 2].map((wave, at) => ({
    tray: at + 1,
    order: "BAB",
    samples: [steamed, current, steamed].map((product, place) => ({
      code: ["482", "715", "309"][place] ?? "",
      product,
      batch: `${product === current ? "current" : "new"} ${wave}`,
    })),
  }));
  const pots = [
    { pot: "KT", product: current, batch: "current 1" },
    { pot: "MV", product: steamed, batch: "new 1" },
    { pot: "PW", product: current, batch: "current 2" },
    { pot: "RZ", product: steamed, batch: "new 2" },
  ];
  return { key: { v: 1, study, seed: "00", trays, pots }, salt: "00" };
}

/** The record of what was written so far, closed and opened. */
export function recorded(cook: Cook): StudyRecord {
  cook.note("study-closed", { heads: headsOf(cook.facts), knownUnsent: 0, note: "" });
  cook.note("key-revealed", { heads: headsOf(cook.facts), opened: openedKey() });
  return recordOf(foldStudy(cook.facts), { keyMatches: true });
}
