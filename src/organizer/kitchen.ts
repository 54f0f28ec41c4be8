import type { Body } from "../model/event.ts";
import type { Key } from "../model/key.ts";

type Lock = Pick<Body<"study-locked">, "plan" | "packet">;

/** One product from one batch for one wave: which cups it goes into. */
export type BatchRow = {
  wave: number;
  starts: string;
  letter: string;
  product: string;
  batch: string;
  /** The label under which its temperatures are written down; null in keys of older locks. */
  pot: string | null;
  cups: { tray: number; place: number; code: string }[];
  /** Trays whose uncoded cup is filled from it too. */
  references: number[];
  /** Grams to portion, null when the plan names no portion. */
  grams: number | null;
};

/** One tray: what goes into each of its cups, in serving order. */
export type TrayRow = {
  tray: number;
  wave: number;
  spare: boolean;
  /** What goes into the uncoded cup that is tasted first; null where the method has none. */
  reference: { letter: string; batch: string } | null;
  cups: { place: number; code: string; letter: string; batch: string }[];
};

const letterOf = (plan: Lock["plan"], product: string): string =>
  String.fromCodePoint(("A".codePointAt(0) ?? 0) + plan.products.findIndex(({ id }) => id === product));

function referenceOf(plan: Lock["plan"], tray: Key["trays"][number] | undefined): TrayRow["reference"] {
  const cup = tray?.reference;
  return cup ? { letter: letterOf(plan, cup.product), batch: cup.batch } : null;
}

/** The kitchen sheet by tray: which cup where. */
export function rowsByTray(key: Key, { plan, packet }: Lock): TrayRow[] {
  const keyed = new Map(key.trays.map((each) => [each.tray, each]));
  return packet.trays.map(({ tray, wave, spare }) => ({
    tray,
    wave,
    spare,
    reference: referenceOf(plan, keyed.get(tray)),
    cups: (keyed.get(tray)?.samples ?? []).map(({ code, product, batch }, at) => ({
      place: at + 1,
      code,
      letter: letterOf(plan, product),
      batch,
    })),
  }));
}

/** The kitchen sheet by product and batch, wave by wave: cups are filled from one pot at a time. */
export function rowsByBatch(key: Key, lock: Lock): BatchRow[] {
  const { plan } = lock;
  const trays = rowsByTray(key, lock);
  const rows: BatchRow[] = [];
  plan.waves.forEach((wave, at) => {
    for (const product of plan.products) {
      const letter = letterOf(plan, product.id);
      for (const batch of wave.batches[product.id] ?? []) {
        const here = trays.filter((tray) => tray.wave === at + 1);
        const references = here
          .filter(({ reference }) => reference?.letter === letter && reference.batch === batch)
          .map(({ tray }) => tray);
        const cups = here.flatMap(({ tray, cups }) =>
          cups
            .filter((cup) => cup.letter === letter && cup.batch === batch)
            .map(({ place, code }) => ({ tray, place, code })),
        );
        const portion = plan.serving.portionGrams;
        const grams = portion === null ? null : Math.round(portion * (cups.length + references.length) * 10) / 10;
        const pot = key.pots?.find((each) => each.product === product.id && each.batch === batch)?.pot ?? null;
        const named = { wave: at + 1, starts: wave.starts, letter, product: product.name, batch, pot };
        rows.push({ ...named, cups, references, grams });
      }
    }
  });
  return rows;
}
