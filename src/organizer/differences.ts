import { canonicalText } from "../model/canonical.ts";
import type { Claim } from "../model/claim.ts";
import type { Kitchen } from "../model/kitchen.ts";
import type { Plan } from "../model/plan.ts";
import { differenceWords as words } from "../words/en/differences.ts";
import { advisedAnew } from "./plan-advice.ts";
import { withoutProduct } from "./plan-edit.ts";

/** In what two versions differ, field by field in plain words, and how one field is taken over from the other. Pure. */

/** One field that differs: what it is called, what each version has in it, and the way to take over the other's. */
export type Difference<T> = {
  /** Names the field; the same for the same field of any two versions. */
  key: string;
  label: string;
  mine: string;
  theirs: string;
  /** Puts what the other version has into a third one, which may be mine, changed since. */
  take: (into: T) => T;
};

type Fields = Record<string, unknown>;
type Item = Fields & { name?: string };
type ListName = keyof typeof words.lists;
/** Where a field stands: keys of objects, and for entries of a list the id that each has there. */
type Path = readonly string[];
type Field = { path: Path; label: string };

/** Lists of a plan, with the path to each and the field that tells its entries apart. */
const lists: { name: ListName; path: Path; by: "id" | "of" }[] = [
  { name: "products", path: ["products"], by: "id" },
  { name: "properties", path: ["properties"], by: "id" },
  { name: "attributes", path: ["scale", "attributes"], by: "id" },
  { name: "waves", path: ["waves"], by: "id" },
  { name: "declarations", path: ["declarations"], by: "of" },
];

const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const idOf = (item: unknown): string => (isFields(item) ? String(item.id ?? item.of) : "");

function at(value: unknown, [head, ...rest]: Path): unknown {
  if (head === undefined) return value;
  if (Array.isArray(value))
    return at(
      value.find((item) => idOf(item) === head),
      rest,
    );
  return isFields(value) && Object.hasOwn(value, head) ? at(value[head], rest) : undefined;
}

/** A value with another one put at a path; undefined takes away what is there. */
function put(value: unknown, [head, ...rest]: Path, to: unknown): unknown {
  if (head === undefined) return to;
  if (Array.isArray(value)) {
    if (rest.length > 0) return value.map((item) => (idOf(item) === head ? put(item, rest, to) : item));
    const others = value.filter((item) => idOf(item) !== head);
    return to === undefined ? others : [...others, to];
  }
  if (!isFields(value)) return value;
  const { [head]: before, ...others } = value;
  const after = put(before, rest, to);
  return after === undefined ? others : { ...value, [head]: after };
}

const same = (one: unknown, other: unknown): boolean =>
  one === undefined || other === undefined ? one === other : canonicalText(one) === canonicalText(other);

/** What is eaten: whoever takes it over has not given the word that the declarations are whole. */
const food = /^(products|declarations|carrier|serving\/(cleanser|warmUp))/;

/** In what two plans differ, in the order of the page. */
export function planDifferences(mine: Plan, theirs: Plan): Difference<Plan>[] {
  const nameOf = (id: string): string | undefined =>
    [mine, theirs].flatMap(({ products }) => products.filter((each) => each.id === id))[0]?.name.trim() || undefined;
  const simple: Field[] = [
    ...Object.entries(words.plan).map(([key, label]) => ({ path: [key], label })),
    ...Object.entries(words.asked).map(([key, label]) => ({ path: ["asked", key], label })),
    ...Object.entries(words.serving).map(([key, label]) => ({ path: ["serving", key], label })),
    ...Object.entries(words.pace).map(([key, label]) => ({ path: ["pace", key], label })),
    ...Object.entries(words.ranking).map(([key, label]) => ({ path: ["ranking", key], label })),
    ...Object.entries(words.chew).map(([key, label]) => ({ path: ["chew", key], label })),
    { path: ["scale", "lengthMm"], label: words.lengthMm },
  ];
  const take = (key: string, path: Path, plan: Plan): Plan => {
    const to = at(theirs, path);
    const [list, id = "", ...more] = path;
    if (list === "products" && more.length === 0 && to === undefined) return withoutProduct(plan, id);
    const taken = advisedAnew(put(plan, path, to) as Plan);
    return food.test(key) && theirs.declarationsComplete !== undefined
      ? { ...taken, declarationsComplete: false }
      : taken;
  };
  return [
    ...differing(mine, theirs, simple, nameOf, take),
    ...lists.flatMap((list) => listDifferences(mine, theirs, list, nameOf, take)),
  ];
}

/** In what two versions of a claim differ. */
export function claimDifferences(mine: Claim, theirs: Claim): Difference<Claim>[] {
  const simple: Field[] = Object.entries(words.claim).map(([key, label]) => ({ path: [key], label }));
  const take = (_key: string, path: Path, claim: Claim): Claim => put(claim, path, at(theirs, path)) as Claim;
  const nobody = () => undefined;
  return [
    ...differing(mine, theirs, simple, nobody, take),
    ...(["explanations", "measures"] as const).flatMap((name) =>
      listDifferences(mine, theirs, { name, path: [name], by: "id" }, nobody, take),
    ),
  ];
}

/** In what two versions of the kitchen's defaults differ. */
export function kitchenDifferences(mine: Kitchen, theirs: Kitchen): Difference<Kitchen>[] {
  const simple: Field[] = [
    ...Object.keys(mine).flatMap((key) => (words.plan[key] ? [{ path: [key], label: words.plan[key] }] : [])),
    ...Object.entries(words.serving).map(([key, label]) => ({ path: ["serving", key], label })),
  ];
  const take = (_key: string, path: Path, kitchen: Kitchen): Kitchen => put(kitchen, path, at(theirs, path)) as Kitchen;
  const properties = { name: "attributes", path: ["properties"], by: "id" } as const;
  return [
    ...differing(mine, theirs, simple, () => undefined, take),
    ...listDifferences(mine, theirs, properties, () => undefined, take),
  ];
}

type NameOf = (id: string) => string | undefined;
type Take<T> = (key: string, path: Path, into: T) => T;

function differing<T>(mine: T, theirs: T, fields: readonly Field[], nameOf: NameOf, take: Take<T>): Difference<T>[] {
  return fields.flatMap(({ path, label }) => {
    const [one, other] = [at(mine, path), at(theirs, path)];
    if (same(one, other)) return [];
    const [key, last] = [path.join("/"), path.at(-1) ?? ""];
    const said = (value: unknown): string =>
      path[0] === "asked" ? words.answer(last, value) : words.value(value, last, nameOf);
    const values = words.large(last)
      ? { mine: words.asBefore, theirs: words.changed }
      : { mine: said(one), theirs: said(other) };
    return [{ key, label, ...values, take: (into: T) => take(key, path, into) }];
  });
}

type List = { name: ListName; path: Path; by: "id" | "of" };

/** Entries that only one version has, each as a whole; of those that both have, what differs in them. */
function listDifferences<T>(mine: T, theirs: T, list: List, nameOf: NameOf, take: Take<T>): Difference<T>[] {
  const [here, there] = [mine, theirs].map((version) => (at(version, list.path) ?? []) as Item[]) as [Item[], Item[]];
  const all = [...here, ...there.filter((item) => !here.some((other) => idOf(other) === idOf(item)))];
  return all.flatMap((item, place) => {
    const id = idOf(item);
    const path = [...list.path, id];
    const called = list.by === "of" ? (words.declared[id] ?? nameOf(id) ?? "") : (item.name ?? "");
    const label = words.item[list.name](called, place);
    const [one, other] = [at(mine, path), at(theirs, path)];
    if (one !== undefined && other !== undefined)
      return differing(mine, theirs, fieldsOf(list.name, label, path, [one, other], nameOf), nameOf, take);
    const [is, isNot] = [words.there, words.notThere];
    const key = path.join("/");
    const sides = one === undefined ? { mine: isNot, theirs: is } : { mine: is, theirs: isNot };
    return [{ key, label, ...sides, take: (into: T) => take(key, path, into) }];
  });
}

function fieldsOf(name: ListName, label: string, path: Path, versions: unknown[], nameOf: NameOf): Field[] {
  const fields = Object.entries(words.lists[name]).map(([key, of]) => ({
    path: [...path, key],
    label: words.field(label, of),
  }));
  if (name !== "waves") return fields;
  const products = new Set(versions.flatMap((wave) => Object.keys((at(wave, ["batches"]) ?? {}) as Fields)));
  const batches = [...products].map((id) => ({
    path: [...path, "batches", id],
    label: words.batches(label, nameOf(id) ?? words.item.products("", 0)),
  }));
  return [...fields, ...batches];
}
