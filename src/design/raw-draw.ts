import type { Plan } from "../model/plan.ts";
import type { Cook, DrawnRaw, RawDraw } from "../model/raw.ts";
import { seeded, shuffled } from "./random.ts";

type Drawn = Pick<Plan, "waves" | "products" | "raw">;

/**
 * The batches that are cooked first for each wave, by product in the plan's order: a name that comes back in a later wave is
 * the same batch, kept.
 */
export function newBatches({ waves, products }: Pick<Plan, "waves" | "products">): string[][][] {
  const seen = new Set<string>();
  return waves.map((wave) =>
    products.map(({ id }) =>
      (wave.batches[id] ?? []).filter((batch) => {
        const name = `${id} ${batch.trim()}`;
        return batch.trim() !== "" && !seen.has(name) && seen.add(name);
      }),
    ),
  );
}

/** Has every product equally many new batches in each wave? Divided pieces need that: each gives one part to each product. */
export const mayDivide = (plan: Pick<Plan, "waves" | "products">): boolean =>
  newBatches(plan).every((products) => products.every(({ length }) => length === products[0]?.length));

/** How many numbered pieces a draw needs, in all. */
export function piecesOf(plan: Pick<Plan, "waves" | "products">, { divided, perBatch }: DrawnRaw): number {
  const batches = newBatches(plan).map((products) =>
    divided ? Math.max(0, ...products.map(({ length }) => length)) : products.flat().length,
  );
  return perBatch * batches.reduce((sum, count) => sum + count, 0);
}

/**
 * Draws which raw pieces get which process, and the order in which batches are cooked.
 *
 * Takes    plan: with `raw` drawn, else there is nothing to draw; seed: hex digits from a cryptographic source, of this draw
 *          alone
 * Returns  null where nothing is drawn. Pieces are numbered from 1, wave after wave, so that those of a later day need not be
 *          there yet; within a wave each way to give them out is equally likely. Batches are cooked in rounds: one of each
 *          product, in an order drawn for each round, so that no process comes late throughout
 */
export function drawRaw({ waves, products, raw }: Drawn, seed: string): RawDraw | null {
  if (raw.drawn !== "drawn") return null;
  const random = seeded(seed, "raw pieces and order of cooking");
  const cooks: Cook[] = [];
  let before = 0;
  newBatches({ waves, products }).forEach((batches, at) => {
    const rounds = Math.max(0, ...batches.map(({ length }) => length));
    const count = raw.perBatch * (raw.divided ? rounds : batches.flat().length);
    const numbers = shuffled(numbered(before, count), random);
    before += count;
    for (let round = 0; round < rounds; round++) {
      const shared = raw.divided ? numbers.splice(0, raw.perBatch) : [];
      const parts = shared.map(() => shuffled(numbered(0, products.length), random));
      const made = products.flatMap(({ id }, product): Cook[] => {
        const batch = batches[product]?.[round];
        if (batch === undefined) return [];
        const pieces = raw.divided
          ? shared.map((piece, which) => ({ piece, part: partName(parts[which]?.[product]) }))
          : numbers.splice(0, raw.perBatch).map((piece) => ({ piece, part: "" }));
        return [{ wave: at + 1, product: id, batch, pieces: sorted(pieces) }];
      });
      cooks.push(...shuffled(made, random));
    }
  });
  return { seed, cooks };
}

const numbered = (before: number, count: number): number[] => Array.from({ length: count }, (_, at) => before + at + 1);
const partName = (place = 1): string => String.fromCodePoint(("a".codePointAt(0) ?? 0) + place - 1);
const sorted = (pieces: Cook["pieces"]): Cook["pieces"] => pieces.toSorted((one, other) => one.piece - other.piece);
