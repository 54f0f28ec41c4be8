import { parseJson } from "../archive/study-file.ts";
import { emptyPlan } from "../design/readiness.ts";
import { newId } from "../model/id.ts";
import { emptyRanking, type Plan, plan as planSchema } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { read } from "../model/schema.ts";
import { terminal } from "../words/en/terminal.ts";

type Fields = Record<string, unknown>;
const isObject = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * Reads a plan file: a plan as the app has it, or a shorter one written by hand. What is left out is as in a new plan,
 * but without spare trays; products, properties and waves may lack an id, batches may stand under a product's name, the
 * reference and the products that are expected may be named, and without waves everybody is in one, with one batch
 * of each product.
 *
 * Throws   Problem "file/not-json", "file/wrong-shape" with the field at fault
 */
export function readPlan(text: string, path: string): { plan: Plan; oneWave: boolean } {
  const written = parseJson(text, path);
  const wrong = (misfit: { where: string; expected: string }) => problem("file/wrong-shape", { path, ...misfit });
  if (!isObject(written)) throw wrong({ where: "the whole document", expected: terminal.expected.fewerFields });
  if (!Number.isInteger(written.people) || Number(written.people) < 1) {
    throw wrong({ where: "people", expected: terminal.expected.people });
  }
  const empty = emptyPlan();
  const products = listOf(written.products).map((product) =>
    isObject(product) ? { id: newId(), preparation: "", ...product } : product,
  );
  const oneWave = listOf(written.waves).length === 0;
  const filled = {
    ...empty,
    spares: 0,
    ...written,
    serving: isObject(written.serving) ? { ...empty.serving, ...written.serving } : (written.serving ?? empty.serving),
    declarations: Array.isArray(written.declarations)
      ? written.declarations.map((each: unknown) =>
          isObject(each) ? { contains: [], mayContain: [], other: "", none: false, ...each } : each,
        )
      : (written.declarations ?? []),
    reference: isObject(written.reference)
      ? { ...empty.reference, ...written.reference, product: idIn(products, written.reference.product) }
      : (written.reference ?? empty.reference),
    properties: Array.isArray(written.properties)
      ? written.properties.map((each: unknown) => propertyOf(each, products))
      : (written.properties ?? []),
    // what is no list stays as it was written, for the schema to name
    ranking: isObject(written.ranking) ? rankingOf(written.ranking, products) : (written.ranking ?? empty.ranking),
    products: written.products === undefined || Array.isArray(written.products) ? products : written.products,
    waves:
      oneWave && (written.waves === undefined || Array.isArray(written.waves))
        ? [waveOfAll(Number(written.people), products)]
        : wavesOf(written.waves, products),
  };
  return { plan: read(planSchema, filled, wrong), oneWave };
}

const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

function waveOfAll(people: number, products: readonly unknown[]): Fields {
  const ids = products.flatMap((product) => (isObject(product) ? [String(product.id)] : []));
  return { id: newId(), starts: "", people, batches: Object.fromEntries(ids.map((id) => [id, ["1"]])) };
}

/** A product's id for its name; anything else stays as it was written. */
const idIn = (products: readonly unknown[], name: unknown): unknown =>
  name === undefined ? null : (idsByName(products).get(String(name)) ?? name);

const idsByName = (products: readonly unknown[]): Map<string, string> =>
  new Map(
    products.flatMap((product) => (isObject(product) ? [[String(product.name), String(product.id)] as const] : [])),
  );

function propertyOf(written: unknown, products: readonly unknown[]): unknown {
  if (!isObject(written)) return written;
  const usual = { id: newId(), name: written.comparative ?? "", comparative: "", definition: "", inFamily: true };
  return { ...usual, ...written, expected: idIn(products, written.expected) };
}

/** The order that is expected may be written with the names of products. */
function rankingOf(written: Fields, products: readonly unknown[]): unknown {
  const { predicted = [] } = written;
  const ids = Array.isArray(predicted) ? predicted.map((name: unknown) => idIn(products, name)) : predicted;
  return { ...emptyRanking(), ...written, predicted: ids };
}

function wavesOf(waves: unknown, products: readonly unknown[]): unknown {
  if (!Array.isArray(waves)) return waves;
  const idOf = idsByName(products);
  return waves.map((wave: unknown) => {
    if (!isObject(wave)) return wave;
    const batches = isObject(wave.batches)
      ? Object.fromEntries(Object.entries(wave.batches).map(([name, list]) => [idOf.get(name) ?? name, list]))
      : (wave.batches ?? {});
    return { id: newId(), starts: "", ...wave, batches };
  });
}
