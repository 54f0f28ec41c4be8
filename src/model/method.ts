/** Methods of the terminal and of every file. Only those with a shape can be planned so far. */
export const methods = [
  "triangle",
  "duo-trio",
  "paired-difference",
  "three-alternative",
  "tetrad",
  "same-different",
  "a-not-a",
  "paired-preference",
  "line-scale",
  "ranking",
  "chew-and-weigh",
] as const;
export type Method = (typeof methods)[number];

/**
 * In which shape a panelist answers. code: one of the codes of the tray. partner: the code that goes with the tray's
 * first one, which says how four samples fall into two pairs. same-different, a-not-a: one of two words. order: all codes,
 * least first. marks: places on a line. portions: each one chewed for a while and spat into its cup, to be weighed.
 */
export type AnswerShape = "code" | "partner" | "same-different" | "a-not-a" | "order" | "marks" | "portions";

/**
 * What sets one method apart from another on the tray and on the ballot, as far as a tablet may know it. What is right,
 * served in which order, and computed from the answers stands in `design/method` and `analysis/method`.
 */
export type MethodShape = {
  /** How many products a study of it compares. */
  products: { least: number; most: number };
  answer: AnswerShape;
  /** The letter on an uncoded cup that is tasted before the coded ones; null where there is none. */
  reference: "R" | "A" | null;
  /** One-sided: somebody is right, or one product is to have more; two-sided; or either, as the plan says. */
  sides: "one" | "two" | "either";
  /** Does the question name a property? Then a tray may have several questions, each with its property. */
  property: boolean;
  /** May the panelist tick "this was a guess"? */
  guess: boolean;
  /** Does a limit of likeness make sense for it? */
  similarity: boolean;
  /** May one person have several trays? Where they are the same question again, or marks that can be averaged. */
  repeats: boolean;
};

const pair = { least: 2, most: 2 } as const;
const choice = { products: pair, answer: "code", reference: null, sides: "one", guess: true, repeats: true } as const;

export const methodShapes = {
  triangle: { ...choice, property: false, similarity: true },
  "duo-trio": { ...choice, reference: "R", property: false, similarity: true },
  "paired-difference": { ...choice, sides: "either", property: true, similarity: true },
  "three-alternative": { ...choice, property: true, similarity: true },
  tetrad: { ...choice, answer: "partner", property: false, similarity: true },
  "same-different": { ...choice, answer: "same-different", property: false, guess: false, similarity: false },
  "a-not-a": { ...choice, answer: "a-not-a", reference: "A", property: false, guess: false, similarity: false },
  "paired-preference": { ...choice, sides: "two", property: false, guess: false, similarity: false },
  // judges manage about six samples of a savory food a sitting (advice for cooked pork, seen in an abstract)
  "line-scale": {
    ...choice,
    products: { least: 2, most: 6 },
    answer: "marks",
    sides: "two",
    property: false,
    guess: false,
    similarity: false,
  },
  // two are a pair, for which the preference and the paired difference stand
  ranking: {
    ...choice,
    products: { least: 3, most: 6 },
    answer: "order",
    sides: "two",
    property: false,
    guess: false,
    similarity: false,
    repeats: false,
  },
  // one of the products may be inert and show saliva alone
  "chew-and-weigh": {
    ...choice,
    products: { least: 2, most: 4 },
    answer: "portions",
    sides: "two",
    property: false,
    guess: false,
    similarity: false,
  },
} as const satisfies Partial<Record<Method, MethodShape>>;

/** Methods that can be planned. */
export type Plannable = keyof typeof methodShapes;
export const plannable = Object.keys(methodShapes) as readonly Plannable[];

export const shapeOf = (method: Plannable): MethodShape => methodShapes[method];

/** Which way the test of a plan looks: as the plan says only where the method leaves it open. */
export const sidesFor = (method: Plannable, sides: "one" | "two"): "one" | "two" => {
  const fixed = shapeOf(method).sides;
  return fixed === "either" ? sides : fixed;
};

/** Does a method's question name a property? Methods that cannot be planned ask for none. */
export const asksProperty = (method: Method): boolean =>
  plannable.some((known) => known === method && shapeOf(known).property);

/** The methods of the two families whose results are named by them. */
export const pairMethods = ["paired-preference", "paired-difference"] as const;
export type PairMethod = (typeof pairMethods)[number];
export const kindsMethods = ["same-different", "a-not-a"] as const;
export type KindsMethod = (typeof kindsMethods)[number];

/** The method as one of its family; a method of another family here is a mistake in the code, and stops. */
export const asPair = (method: Method): PairMethod => oneOf(pairMethods, method);
export const asKinds = (method: Method): KindsMethod => oneOf(kindsMethods, method);

function oneOf<M extends Method>(family: readonly M[], method: Method): M {
  const found = family.find((known) => known === method);
  if (!found) throw new RangeError(`${method} is none of ${family.join(", ")}`);
  return found;
}

/** Answers that are words and no code. "none": somebody who prefers neither. */
export const answerWords = ["none", "same", "different", "a", "not-a"] as const;
export type AnswerWord = (typeof answerWords)[number];
export const isAnswerWord = (answer: string): answer is AnswerWord =>
  (answerWords as readonly string[]).includes(answer);
