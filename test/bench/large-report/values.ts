/** A hundred thousand answers as another program might have kept them: 2 properties of 5 products by 10,000 people. */
export const groups = { products: 5, properties: 2 };
export const people = 10_000;

export type Row = { panelist: string; product: string; attribute: string; value: number };

/** From a generator of its own, so that every run has the same; values with a tenth, crowded in the middle. */
export function rowsOf(count = people): Row[] {
  let state = 7;
  // a short linear congruential generator: nothing here has to be hard to guess
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const rows: Row[] = [];
  for (let person = 0; person < count; person++) {
    const own = 12 * (uniform() + uniform() - 1);
    for (let property = 0; property < groups.properties; property++) {
      for (let product = 0; product < groups.products; product++) {
        const scatter = 40 * ((uniform() + uniform() + uniform()) / 3 - 0.5);
        const value = 45 + 1.5 * product * (property === 0 ? 1 : 0.2) + own + scatter;
        rows.push({
          panelist: `person ${person + 1}`,
          product: `sample ${product + 1}`,
          attribute: `property ${property + 1}`,
          value: Math.round(10 * value) / 10,
        });
      }
    }
  }
  return rows;
}

export const csvOf = (rows: readonly Row[]): string =>
  `panelist,product,attribute,value\n${rows.map((row) => [row.panelist, row.product, row.attribute, row.value].join(",")).join("\n")}\n`;
