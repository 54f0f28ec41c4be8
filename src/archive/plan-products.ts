/** Where a plan names its products, and how a file does: by their names instead of ids, so that people can edit it. */

export type Fields = Record<string, unknown>;
export const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What a declaration may be of beside a product. */
const notProducts = ["warm-up", "cleanser", "carrier"];
const byPlace = /^#([1-9]\d*)$/;

/** One way to name a product for another. undefined: there is no such product, and what was said of it goes. */
export type Renaming = (named: string, where: string) => string | undefined;

/**
 * A plan, or what a file has for one, with each of its products named another way. What has not the shape of a plan
 * stays as it is, for the schema to name.
 */
export function renameProducts(plan: Fields, rename: Renaming): Fields {
  const one = (value: unknown, where: string): unknown =>
    typeof value === "string" ? (rename(value, where) ?? null) : value;
  const fieldsOf = (value: unknown, keys: readonly string[], where: string): unknown =>
    isFields(value)
      ? { ...value, ...given(keys.flatMap((key) => (key in value ? [[key, one(value[key], `${where}.${key}`)]] : []))) }
      : value;
  return {
    ...plan,
    reference: fieldsOf(plan.reference, ["product"], "reference"),
    properties: each(plan.properties, "properties", (property, where) => fieldsOf(property, ["expected"], where)),
    ranking: isFields(plan.ranking)
      ? { ...plan.ranking, predicted: listed(plan.ranking.predicted, "ranking.predicted", rename) }
      : plan.ranking,
    chew: fieldsOf(plan.chew, ["control"], "chew"),
    comparisons: comparisonsOf(plan.comparisons, fieldsOf),
    waves: each(plan.waves, "waves", (wave, where) =>
      isFields(wave) ? { ...wave, batches: keyed(wave.batches, `${where}.batches`, rename) } : wave,
    ),
    declarations: declared(plan.declarations, rename),
  };
}

const given = (entries: readonly (readonly unknown[])[]): Fields => Object.fromEntries(entries as [string, unknown][]);

const each = (value: unknown, where: string, change: (item: unknown, where: string) => unknown): unknown =>
  Array.isArray(value) ? value.map((item: unknown, at) => change(item, `${where}.${at}`)) : value;

/** A list of products, without those there are not. */
const listed = (value: unknown, where: string, rename: Renaming): unknown =>
  Array.isArray(value)
    ? value.flatMap((item: unknown, at) => (typeof item === "string" ? (rename(item, `${where}.${at}`) ?? []) : [item]))
    : value;

/** Fields that are named by products. */
const keyed = (value: unknown, where: string, rename: Renaming): unknown =>
  isFields(value)
    ? given(
        Object.entries(value).flatMap(([key, item]) => {
          const renamed = rename(key, `${where}.${key}`);
          return renamed === undefined ? [] : [[renamed, item]];
        }),
      )
    : value;

function comparisonsOf(
  value: unknown,
  fieldsOf: (value: unknown, keys: readonly string[], where: string) => unknown,
): unknown {
  if (!isFields(value)) return value;
  const within = (key: string, keys: readonly string[]): Fields =>
    key in value ? { [key]: each(value[key], `comparisons.${key}`, (item, where) => fieldsOf(item, keys, where)) } : {};
  const named = fieldsOf(value, ["product"], "comparisons");
  return {
    ...(isFields(named) ? named : value),
    ...within("pairs", ["first", "second"]),
    ...within("cells", ["product"]),
  };
}

const declared = (value: unknown, rename: Renaming): unknown =>
  Array.isArray(value)
    ? value.flatMap((item: unknown, at): unknown[] => {
        if (!isFields(item) || typeof item.of !== "string" || notProducts.includes(item.of)) return [item];
        const of = rename(item.of, `declarations.${at}.of`);
        return of === undefined ? [] : [{ ...item, of }];
      })
    : value;

type Product = { id: string; name: string };

/** For each product the name that a file has for it: its own where that says which it is, or else its place ("#2"). */
export function fileNames(products: readonly Product[]): Map<string, string> {
  const plain = ({ name }: Product): boolean =>
    name.trim() !== "" &&
    !byPlace.test(name) &&
    !notProducts.includes(name) &&
    products.filter((other) => other.name === name).length === 1 &&
    !products.some(({ id }) => id === name);
  return new Map(products.map((product, at) => [product.id, plain(product) ? product.name : `#${at + 1}`]));
}

/**
 * The id of a product that a file names: by its name, its place or its id; undefined where there is none, or several.
 * `placeFirst`: "#2" is a place even where a product has it for a name, as files of `fileNames` have it.
 */
export function productNamed(products: readonly Product[], named: string, placeFirst: boolean): string | undefined {
  const place = byPlace.exec(named)?.[1];
  const placed = place === undefined ? undefined : products[Number(place) - 1]?.id;
  const [first, ...more] = products.filter(({ name }) => name === named);
  const called = first && more.length === 0 ? first.id : undefined;
  const found = placeFirst && place !== undefined ? placed : (called ?? placed);
  return found ?? products.find(({ id }) => id === named)?.id;
}
