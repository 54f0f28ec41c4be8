import { shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import { copyOfPlan } from "./begin.ts";
import { productBounds } from "./method.ts";

/** Words that a blank study begins with; they are the lead's to change. */
export type BlankWords = Pick<Plan, "objective" | "ifYes" | "ifNo"> & {
  title: (of: string) => string;
  /** A product that plays the part of another one; its letter is counted from 0. */
  standIn: (name: string, at: number) => string;
};

const longestTitle = 300;

/**
 * A new draft in which every cup holds one food: that of the known product where the method has one, else the first.
 * Labels, orders, waves and wording are those of the plan, so that it tries all that might give cups away. Its goal is a
 * difference, which it must not find, and everybody answers.
 *
 * Takes    from: the study and its plan; titles: in use; newId gives a fresh id at each call
 */
export function blankOf(
  from: { study: string; plan: Plan },
  titles: readonly string[],
  newId: () => string,
  words: BlankWords,
): Plan {
  const title = words.title(from.plan.title.trim()).slice(0, longestTitle);
  const copy = copyOfPlan({ ...from, called: title }, titles, newId);
  const taken = titles.some((each) => each.trim() === title);
  const food = foodOf(copy);
  const products = food === undefined ? [] : standInsOf(copy, food, newId, words);
  const batchesIn = ({ batches }: Plan["waves"][number]) => (food === undefined ? [] : (batches[food.id] ?? []));
  return {
    ...copy,
    ...{ title: taken ? copy.title : title, blank: true },
    ...{ objective: words.objective, ifYes: words.ifYes, ifNo: words.ifNo },
    ...{ goal: "difference", stopping: { rule: "fixed" }, looks: "alike", masking: "" },
    // one food has one process: nothing is given out by lot
    raw: { drawn: "unknown" },
    products,
    waves: copy.waves.map((wave) => ({
      ...wave,
      batches: Object.fromEntries(products.map(({ id }) => [id, batchesIn(wave)])),
    })),
    declarations: declarationsOf(copy, food?.id, products),
  };
}

function foodOf({ method, reference, products }: Plan): Plan["products"][number] | undefined {
  const known = shapeOf(method).reference !== null && products.find(({ id }) => id === reference.product);
  return known || products[0];
}

/** All products of the plan, and as many as its method needs, each of them the one food under a name of its own. */
function standInsOf(
  plan: Plan,
  food: Plan["products"][number],
  newId: () => string,
  words: BlankWords,
): Plan["products"] {
  const missing = Math.max(0, productBounds(plan).least - plan.products.length);
  const ids = [...plan.products.map(({ id }) => id), ...Array.from({ length: missing }, newId)];
  return ids.map((id, at) => ({ ...food, id, name: id === food.id ? food.name : words.standIn(food.name, at) }));
}

/** What the one food holds, all of its stand-ins hold; warm-up, cleanser and carrier stay as they were. */
function declarationsOf(
  { declarations, products }: Plan,
  food: string | undefined,
  standIns: Plan["products"],
): Plan["declarations"] {
  const said = declarations.find(({ of }) => of === food);
  const others = declarations.filter(({ of }) => products.every(({ id }) => id !== of));
  return [...(said ? standIns.map(({ id }) => ({ ...said, of: id })) : []), ...others];
}
