import type { Comparisons, Plan } from "../model/plan.ts";

/** Changes of what a plan compares, as functions from one plan to the next. */

type Kind = Comparisons["kind"];
type TwoFactors = Extract<Comparisons, { kind: "two-factors" }>;
export type Level = TwoFactors["cells"][number]["first"];
export const levels = ["one", "two"] as const satisfies readonly Level[];

const emptyFactor = (): TwoFactors["factors"][number] => ({ name: "", levels: ["", ""] });

/** Another kind of comparison begins empty; what another kind said is in the undo. */
export function withComparisons(plan: Plan, kind: Kind): Plan {
  if (kind === plan.comparisons.kind) return plan;
  const fresh: Record<Kind, () => Comparisons> = {
    "all-pairs": () => ({ kind: "all-pairs" }),
    reference: () => ({ kind: "reference", product: null }),
    planned: () => ({ kind: "planned", pairs: [{ first: null, second: null }] }),
    "two-factors": () => ({ kind: "two-factors", factors: [emptyFactor(), emptyFactor()], cells: dealtCells(plan) }),
  };
  return { ...plan, comparisons: fresh[kind]() };
}

/** The first four products as the four cells, in the order of the plan: a start that is often right. */
const dealtCells = ({ products }: Plan): TwoFactors["cells"] =>
  products.slice(0, 4).map(({ id }, at) => ({
    product: id,
    first: at < 2 ? "one" : "two",
    second: at % 2 === 0 ? "one" : "two",
  }));

export const withReferenceProduct = (plan: Plan, product: string): Plan => ({
  ...plan,
  comparisons: { kind: "reference", product },
});

type Pair = Extract<Comparisons, { kind: "planned" }>["pairs"][number];

export function changePair(plan: Plan, at: number, change: Partial<Pair>): Plan {
  if (plan.comparisons.kind !== "planned") return plan;
  const pairs = plan.comparisons.pairs.map((pair, place) => (place === at ? { ...pair, ...change } : pair));
  return { ...plan, comparisons: { kind: "planned", pairs } };
}

export function withPair(plan: Plan): Plan {
  if (plan.comparisons.kind !== "planned") return plan;
  return {
    ...plan,
    comparisons: { kind: "planned", pairs: [...plan.comparisons.pairs, { first: null, second: null }] },
  };
}

export function withoutPair(plan: Plan, at: number): Plan {
  if (plan.comparisons.kind !== "planned") return plan;
  return {
    ...plan,
    comparisons: { kind: "planned", pairs: plan.comparisons.pairs.filter((_, place) => place !== at) },
  };
}

export function changeFactor(
  plan: Plan,
  at: 0 | 1,
  change: { name?: string; level?: { at: 0 | 1; word: string } },
): Plan {
  if (plan.comparisons.kind !== "two-factors") return plan;
  const { factors } = plan.comparisons;
  const before = factors[at];
  const words: [string, string] = [...before.levels];
  if (change.level) words[change.level.at] = change.level.word;
  const after = { name: change.name ?? before.name, levels: words };
  return {
    ...plan,
    comparisons: { ...plan.comparisons, factors: at === 0 ? [after, factors[1]] : [factors[0], after] },
  };
}

/** Says which level of a factor a product has; its other level stays, or is the first one. */
export function withCell(plan: Plan, product: string, factor: "first" | "second", level: Level): Plan {
  if (plan.comparisons.kind !== "two-factors") return plan;
  const { cells } = plan.comparisons;
  const before = cells.find((cell) => cell.product === product) ?? {
    product,
    first: "one" as const,
    second: "one" as const,
  };
  const after = { ...before, [factor]: level };
  return {
    ...plan,
    comparisons: { ...plan.comparisons, cells: [...cells.filter((cell) => cell.product !== product), after] },
  };
}

/** What is left of comparisons when a product is taken out of the plan. */
export function withoutCompared(comparisons: Comparisons, id: string): Comparisons {
  switch (comparisons.kind) {
    case "all-pairs":
      return comparisons;
    case "reference":
      return comparisons.product === id ? { ...comparisons, product: null } : comparisons;
    case "planned":
      return {
        ...comparisons,
        pairs: comparisons.pairs.filter(({ first, second }) => first !== id && second !== id),
      };
    case "two-factors":
      return { ...comparisons, cells: comparisons.cells.filter(({ product }) => product !== id) };
  }
}
