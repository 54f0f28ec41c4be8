import { expect, test } from "vitest";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { readyPlan } from "./scenario.ts";

/** A cup on a planned tray: its code, and everything that a code must tell nothing of. */
type Cup = { code: string; product: string; batch: string; place: string; tray: string; wave: string; order: string };

const studies = 3_000;
const plan = (() => {
  const ready = readyPlan({ people: 6, spares: 0 });
  return { ...ready, waves: ready.waves.map((wave) => ({ ...wave, people: 3 })) };
})();

/**
 * All cups of 3,000 studies of six triangles. The source of codes is a seeded stand-in for the cryptographic one, so that
 * the numbers below are the same in every run.
 */
const cups: Cup[] = Array.from({ length: studies }, (_each, study) => {
  const seed = study.toString(16).padStart(8, "0");
  const random = { seed, codes: seeded(seed, "stand-in for the cryptographic source") };
  const { key, blind } = makeTrays(plan, "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10", random);
  return key.trays.flatMap(({ tray, order, samples }, at) =>
    samples.map(({ code, product, batch }, place) => ({
      ...{ code, product, batch, place: String(place), tray: String(tray), order },
      wave: String(blind[at]?.wave),
    })),
  );
}).flat();

/** Pearson's chi-square of two ways to sort the cups, and its degrees of freedom. */
function pearson(of: readonly Cup[], one: (cup: Cup) => string, other: (cup: Cup) => string) {
  const [rows, columns, cells] = [new Map<string, number>(), new Map<string, number>(), new Map<string, number>()];
  for (const cup of of) {
    const [row, column] = [one(cup), other(cup)];
    for (const [counts, key] of [
      [rows, row],
      [columns, column],
      [cells, `${row} ${column}`],
    ] as const)
      counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  let statistic = 0;
  for (const [row, inRow] of rows)
    for (const [column, inColumn] of columns) {
      const expected = (inRow * inColumn) / of.length;
      statistic += ((cells.get(`${row} ${column}`) ?? 0) - expected) ** 2 / expected;
    }
  return { statistic, df: (rows.size - 1) * (columns.size - 1) };
}

/**
 * Upper 0.01 % point of chi-square (Wilson and Hilferty's cube, any handbook; 3.719 is the normal's, printed in tables of
 * z). Codes of one tray share no first digit, which only brings counts closer together.
 */
const band = (df: number): number => df * (1 - 2 / (9 * df) + 3.719 * Math.sqrt(2 / (9 * df))) ** 3;

const facts = ["product", "batch", "place", "tray", "wave", "order"] as const;
const partsOfCode = {
  "the whole code": ({ code }: Cup) => code,
  "its first digit": ({ code }: Cup) => code.charAt(0),
};

test.each(Object.entries(partsOfCode).flatMap(([name, part]) => facts.map((fact) => [name, fact, part] as const)))(
  "over 3,000 studies %s says nothing of the %s",
  (_name, fact, part) => {
    const { statistic, df } = pearson(cups, part, (cup) => cup[fact]);
    expect(df).toBeGreaterThan(0);
    expect(statistic).toBeLessThan(band(df));
  },
);

test("a study says nothing of the next: the code at one cup and that at the same cup of the study after it", () => {
  const firsts = cups.filter(({ tray, place }) => tray === "1" && place === "0");
  const pairs = firsts.slice(1).map((cup, at) => ({ ...cup, order: firsts[at]?.code.charAt(0) ?? "" }));
  const { statistic, df } = pearson(pairs, partsOfCode["its first digit"], ({ order }) => order);
  expect([firsts.length, df]).toEqual([studies, 64]);
  expect(statistic).toBeLessThan(band(df));
});

test("codes that lean on the product in one cup of twenty are found", () => {
  const [current = ""] = plan.products.map(({ id }) => id);
  const leaning = cups.map((cup, at) =>
    at % 20 === 0 && cup.product === current ? { ...cup, code: `1${cup.code.slice(1)}` } : cup,
  );
  const { statistic, df } = pearson(leaning, partsOfCode["its first digit"], ({ product }) => product);
  expect(statistic).toBeGreaterThan(band(df));
});
