import * as z from "zod/mini";
import { canonicalText } from "../model/canonical.ts";
import { usualChew } from "../model/chew-plan.ts";
import { shapeOf } from "../model/method.ts";
import { emptyRanking, type Plan, plan as planSchema } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { id, line, read } from "../model/schema.ts";
import { type Fields, fileNames, isFields, productNamed, renameProducts } from "./plan-products.ts";
import { parseJson } from "./study-file.ts";

/** A plan as one file that people can read and edit: no ids, products by their names, without what is as usual. */

const planStudy = z.strictObject({ id, title: line });
/** The study that a plan file was written from. */
export type PlanStudy = z.infer<typeof planStudy>;

const head = z.strictObject({
  format: z.literal("cloche-plan"),
  v: z.literal(1),
  study: z._default(z.nullable(planStudy), null),
});

/** Where a plan came from, and that it is a demo, are no part of the plan that somebody begins with. */
const notInFile = ["invented", "copiedFrom"] as const satisfies readonly (keyof Plan)[];

/**
 * The text of a plan file, in the order of the plan's own fields.
 *
 * Takes    plan: a draft or a locked one; study: where it is from
 * Returns  JSON, two spaces deep; fields that are as usual and that its method does not ask for are left out
 */
export function writePlanFile(plan: Plan, study: PlanStudy): string {
  const names = fileNames(plan.products);
  const named = renameProducts(plan, (product) => names.get(product));
  const left = new Set<string>(notInFile);
  const said = Object.keys(planSchema.shape).flatMap((key): [string, unknown][] =>
    left.has(key) || (isUsual(key as keyof Plan, named[key]) && !asked(plan).includes(key as keyof Plan))
      ? []
      : [[key, withoutIds(named[key])]],
  );
  const file = { format: "cloche-plan", v: 1, study, ...Object.fromEntries(said) };
  return `${JSON.stringify(file, null, 2)}\n`;
}

/** Is a field what the schema takes for one that is left out? That never changes: older events rely on it. */
function isUsual(key: keyof Plan, value: unknown): boolean {
  const usual = z.safeParse(planSchema.shape[key] as z.ZodMiniType, undefined);
  return usual.success && canonicalText(usual.data) === canonicalText(value);
}

/** What the plan turns on and stands in the file even where it is as usual. */
function asked({ method, goal, repeats }: Plan): (keyof Plan)[] {
  const { answer, reference, property, sides } = shapeOf(method);
  return [
    "panelType",
    "confidence",
    "repeats",
    ...(goal === "similarity" ? (["similarity"] as const) : []),
    ...(repeats > 1 ? (["repeatsIn"] as const) : []),
    ...(reference === null ? [] : (["reference"] as const)),
    ...(property ? (["properties"] as const) : []),
    ...(sides === "either" ? (["sides"] as const) : []),
    ...(sides === "two" && answer === "code" ? (["noPreference"] as const) : []),
    ...(answer === "marks" ? (["scale", "comparisons"] as const) : []),
    ...(answer === "order" ? (["ranking"] as const) : []),
    ...(answer === "portions" ? (["chew"] as const) : []),
  ];
}

/** Ids name things within one study; a file has names and places for that. */
function withoutIds(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutIds);
  if (!isFields(value)) return value;
  const entries = Object.entries(value).filter(([key, item]) => !(key === "id" && z.safeParse(id, item).success));
  return Object.fromEntries(entries.map(([key, item]) => [key, withoutIds(item)]));
}

export type PlanFile = {
  plan: Plan;
  /** The study that the file was written from; null for one that was written by hand. */
  study: PlanStudy | null;
};

export type PlanFileOptions = {
  /** What a new plan is: of it comes what is left out. */
  empty: Plan;
  newId: () => string;
  /** What should stand where something else does, in words for a person. */
  expected: { fields: string; people: string; product: (names: readonly string[]) => string };
};

/**
 * Reads a plan file: one that was written above, or a shorter one by hand, without the format. In the latter, what is
 * left out is as in a new plan, but without spare trays. Products, properties and waves may lack an id and get one of
 * their own; wherever a product is named, its name, its place ("#2") or its id will do.
 *
 * Throws   Problem "file/not-json", "file/wrong-shape" with the field at fault
 */
export function readPlanFile(text: string, path: string, options: PlanFileOptions): PlanFile {
  const { empty, newId, expected } = options;
  const written = parseJson(text, path);
  const wrong = (misfit: { where: string; expected: string }) => problem("file/wrong-shape", { path, ...misfit });
  if (!isFields(written)) throw wrong({ where: "the whole document", expected: expected.fields });
  const byHand = !("format" in written);
  const { format, v, study, ...said } = written;
  const from = byHand ? null : read(head, { format, v, study }, wrong).study;
  if (byHand && (!Number.isInteger(written.people) || Number(written.people) < 1)) {
    throw wrong({ where: "people", expected: expected.people });
  }
  const filled = filledIn(byHand ? written : said, byHand ? { ...empty, spares: 0 } : empty, newId);
  const products = (Array.isArray(filled.products) ? filled.products : []).flatMap((product: unknown) =>
    isFields(product) ? [{ id: String(product.id), name: String(product.name) }] : [],
  );
  const named = renameProducts(filled, (name, where) => {
    const found = productNamed(products, name, !byHand);
    if (found === undefined) throw wrong({ where, expected: expected.product(products.map((each) => each.name)) });
    return found;
  });
  return { plan: read(planSchema, named, wrong), study: from };
}

/** A plan with what was left out, and ids where there are none. What has another shape is left for the schema to name. */
function filledIn(written: Fields, empty: Plan, newId: () => string): Fields {
  const over = (value: unknown, usual: Fields): unknown =>
    value === undefined ? usual : isFields(value) ? { ...usual, ...value } : value;
  const each = (value: unknown, usual: (item: Fields) => Fields): unknown =>
    Array.isArray(value)
      ? value.map((item: unknown) => (isFields(item) ? { ...usual(item), ...item } : item))
      : (value ?? []);
  return {
    ...empty,
    ...written,
    serving: over(written.serving, empty.serving),
    reference: over(written.reference, empty.reference),
    ranking: over(written.ranking, emptyRanking()),
    chew: over(written.chew, usualChew()),
    scale: scaleOf(over(written.scale, empty.scale), newId),
    products: each(written.products, () => ({ id: newId(), preparation: "" })),
    properties: each(written.properties, ({ comparative = "" }) => ({
      ...{ id: newId(), name: comparative, comparative: "", definition: "", expected: null, inFamily: true },
    })),
    waves: each(written.waves, () => ({ id: newId(), starts: "", batches: {} })),
    declarations: each(written.declarations, () => ({ contains: [], mayContain: [], other: "", none: false })),
  };
}

/** The properties of a line scale under ids of their own, each of their moments too. */
function scaleOf(scale: unknown, newId: () => string): unknown {
  const withId = (value: unknown): unknown => (isFields(value) ? { id: newId(), ...value } : value);
  if (!isFields(scale) || !Array.isArray(scale.attributes)) return scale;
  const attributes = scale.attributes
    .map(withId)
    .map((each) =>
      isFields(each) && Array.isArray(each.further) ? { ...each, further: each.further.map(withId) } : each,
    );
  return { ...scale, attributes };
}
