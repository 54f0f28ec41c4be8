import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Body } from "../../src/model/event.ts";
import { blindPacket } from "../../src/model/packet.ts";
import { type Plan, plan as planSchema } from "../../src/model/plan.ts";
import { read } from "../../src/model/schema.ts";
import { type Opened, openedStudy } from "../../src/report/opened-study.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { lead, study, tablet, writer } from "../archive/scenario.ts";
import { chewPlan } from "../design/scenario.ts";

/** What one portion did: readings as whoever weighs types them, and what the tablet says of the chewing; null: nothing. */
export type Told = {
  cup: string;
  portion: string;
  after: string;
  rinse: string;
  seconds: number | null;
  whole: boolean;
  /** Seconds for which whoever weighed knew of the chewed portion before the closed cup was entered; left out: not timed. */
  waited?: number;
};

/** Which portion is asked for: a person's so-manieth of a product, both from 0 in the order of the plan. */
export type Which = { tray: number; code: string; person: number; product: number; repeat: number };

const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };
const noSeal = { iv: "00".repeat(12), ciphertext: "", kdf: { rounds: 600_000, salt: "00".repeat(16) } };

/** Grams as a balance of a thousandth shows them. */
export const grams = (value: number): string => value.toFixed(3);

/** A portion of `mass` grams that gained so many percent, in a cup of 12.310 g with 10.000 g of rinse water. */
export const gaining = (percent: number, mass = 5): Told => ({
  ...{ cup: "12.310", portion: grams(mass), after: grams(12.31 + 10 + mass * (1 + percent / 100)), rinse: "10.000" },
  ...{ seconds: 15, whole: true },
});

/** The scenario's plan of two products, three trays a person in one sitting, and nothing inert. */
export function pairOfProducts(changes: Partial<Plan> = {}): Plan {
  const plan = chewPlan();
  const products = plan.products.slice(0, 2);
  const people = changes.people ?? 8;
  return {
    ...plan,
    ...{ people, repeats: 3, spares: 0, products, chew: { ...plan.chew, control: null, balanceStep: "0.001" } },
    waves: plan.waves.slice(0, 1).map((wave) => ({ ...wave, people })),
    ...changes,
  };
}

/**
 * A study of chewed portions from lock to reveal, as the lead's device and one tablet write it, and as the reader's page
 * opens it. `more`: what else the lead writes before the key is opened.
 */
export function chewStudy(
  given: Plan,
  tell: (which: Which) => Told,
  more: (write: (body: Body<"portion-weighed">) => void, which: readonly Which[]) => void = () => undefined,
): Opened {
  const plan = read(planSchema, given);
  const { blind, key, seats, pots } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const opened = withSalt(key);
  const commitment = commitmentOf(opened);
  const packet = read(blindPacket, blindPacketOf(plan, study, blind, commitment));
  const { texts, write } = writer();
  const heads: Record<string, number> = { [lead]: 0, [tablet]: 0 };
  const put: typeof write = (device, kind, body) => {
    heads[device] = (heads[device] ?? 0) + 1;
    write(device, kind, body);
  };
  put(lead, "study-locked", { plan, packet, sealed: { v: 1, study, commitment, ...noSeal }, seats, app: "test", pots });
  const portions = portionsOf(plan, key.trays, seats);
  for (const { tray, codes, spare } of blind) {
    if (spare) continue;
    const told = codes.map((code) => {
      const which = portions.find((each) => each.tray === tray && each.code === code);
      if (!which) throw new Error(`no portion ${tray} ${code}`);
      return { code, ...tell(which) };
    });
    for (const each of told) weigh(put, tray, each);
    put(tablet, "tray-opened", { tray, clearance: packet.allergens.version });
    for (const [at, { code, seconds, whole }] of told.entries()) {
      if (seconds === null) continue;
      const chewed = { chewedSeconds: seconds, whole, hidden: false, elapsedMs: 20_000 };
      put(tablet, "portion-chewed", { tray, question: at + 1, code, ...chewed, screen, salt: "5a".repeat(32) });
    }
    put(tablet, "tray-finished", { tray });
  }
  more((body) => put(lead, "portion-weighed", body), portions);
  put(lead, "study-closed", { heads: { ...heads }, knownUnsent: 0, note: "" });
  put(lead, "key-revealed", { heads: { ...heads }, opened });
  return { ...openedStudy(study, texts, 0, "test"), failure: null };
}

type Put = (device: string, kind: "portion-weighed", body: Body<"portion-weighed">) => void;

function weigh(put: Put, tray: number, { code, cup, portion, after, rinse, waited }: Told & { code: string }): void {
  for (const [stage, reading] of Object.entries({ cup, portion, after })) {
    if (reading === "") continue;
    put(lead, "portion-weighed", {
      ...{ tray, code, stage: stage as "cup", grams: reading, rinse: stage === "after" ? rinse : "" },
      ...{ balanceStep: "0.001", after: [], note: "" },
      waitedSeconds: stage === "after" ? (waited ?? null) : null,
    });
  }
}

/** Whose so-manieth portion of what each code is, from the key: a person's portions count in the order of the trays. */
function portionsOf(
  plan: Plan,
  trays: readonly { tray: number; samples: readonly { code: string; product: string }[] }[],
  seats: readonly { seat: number; trays: readonly number[] }[],
): Which[] {
  const counts = new Map<string, number>();
  return trays.flatMap(({ tray, samples }) => {
    const seat = seats.find((each) => each.trays.includes(tray))?.seat;
    return samples.flatMap(({ code, product }) => {
      if (seat === undefined) return [];
      const name = `${seat} ${product}`;
      const repeat = counts.get(name) ?? 0;
      counts.set(name, repeat + 1);
      return [{ tray, code, person: seat - 1, product: plan.products.findIndex(({ id }) => id === product), repeat }];
    });
  });
}
