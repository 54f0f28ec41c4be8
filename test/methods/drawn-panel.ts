import { seeded, type Uniform } from "../../src/design/random.ts";
import type { Key } from "../../src/model/key.ts";
import type { AnswerWord } from "../../src/model/method.ts";
import type { Plan } from "../../src/model/plan.ts";

/*
 * A panel whose answers are drawn by chance, with shares that are known: the counts that a study of it has to find. What
 * is right stands here a second time, said of products instead of letters, so that it owes nothing to `src/analysis`.
 */

type KeyTray = Key["trays"][number];

/** One answer as it was drawn: what was meant by it, and what the tablet then writes. */
export type Drawn = {
  tray: number;
  question: number;
  choice: string | AnswerWord;
  guess: boolean;
  meant: "right" | "wrong" | "first" | "second" | "none" | "unlike told" | "unlike not" | "like told" | "like not";
};

const odd: (tray: KeyTray) => string = ({ samples }) =>
  samples.find((one) => samples.filter(({ product }) => product === one.product).length === 1)?.code ?? "";
const ofProduct = ({ samples }: KeyTray, wanted: string | null | undefined): string =>
  samples.find(({ product }) => product === wanted)?.code ?? "";

/** The right code, where somebody is right. */
const rightCode: Partial<Record<Plan["method"], (tray: KeyTray, plan: Plan, question: number) => string>> = {
  triangle: odd,
  "duo-trio": (tray) => ofProduct(tray, tray.reference?.product),
  "paired-difference": (tray, plan, question) => ofProduct(tray, plan.properties[question - 1]?.expected),
  "three-alternative": (tray, plan, question) => ofProduct(tray, plan.properties[question - 1]?.expected),
  tetrad: ({ samples: [first, ...others] }) => others.find(({ product }) => product === first?.product)?.code ?? "",
};

/** Shares in hundredths: how many are right; prefer the first, and neither; call unlike, and like trays different. */
export const shares = { right: 62, first: 50, none: 18, unlikeTold: 70, likeTold: 30 } as const;

/** Answers to every question of these trays, in the order of the trays. */
export function drawnAnswers(plan: Plan, trays: readonly KeyTray[], seed: string): Drawn[] {
  const chance = seeded(seed, "answers of an invented panel");
  const asksProperty = plan.method === "paired-difference" || plan.method === "three-alternative";
  const questions = asksProperty ? plan.properties.length : 1;
  return trays.flatMap((tray) =>
    Array.from({ length: questions }, (_, at) => ({ tray: tray.tray, ...drawn(plan, tray, at + 1, chance) })),
  );
}

function drawn(plan: Plan, tray: KeyTray, question: number, chance: Uniform): Omit<Drawn, "tray"> {
  const draw = chance.below(100);
  if (plan.method === "same-different" || plan.method === "a-not-a") return { question, ...saidOf(plan, tray, draw) };
  if (plan.method === "paired-preference" || (plan.method === "paired-difference" && plan.sides === "two")) {
    const offered = plan.method === "paired-preference" && plan.noPreference !== "not-offered";
    if (offered && draw >= 100 - shares.none) return { question, choice: "none", guess: false, meant: "none" };
    const meant = draw < shares.first ? "first" : "second";
    const choice = ofProduct(tray, plan.products[meant === "first" ? 0 : 1]?.id);
    return { question, choice, guess: false, meant };
  }
  const right = rightCode[plan.method]?.(tray, plan, question) ?? "";
  // of a tetrad the first sample cannot be its own partner
  const wrong = tray.samples.slice(plan.method === "tetrad" ? 1 : 0).filter(({ code }) => code !== right);
  const other = wrong[chance.below(wrong.length)]?.code ?? "";
  const guess = chance.below(4) === 0;
  return draw < shares.right
    ? { question, choice: right, guess, meant: "right" }
    : { question, choice: other, guess, meant: "wrong" };
}

function saidOf({ method, reference }: Plan, { samples }: KeyTray, draw: number): Omit<Drawn, "tray" | "question"> {
  const [one, other] = samples;
  const unlike = method === "a-not-a" ? one?.product !== reference.product : one?.product !== other?.product;
  const told = draw < (unlike ? shares.unlikeTold : shares.likeTold);
  const [yes, no] = method === "a-not-a" ? (["not-a", "a"] as const) : (["different", "same"] as const);
  return {
    choice: told ? yes : no,
    guess: false,
    meant: `${unlike ? "unlike" : "like"} ${told ? "told" : "not"}`,
  };
}

/** How many of these answers to one question were meant so. */
export const howMany = (answers: readonly Drawn[], meant: Drawn["meant"], question = 1): number =>
  answers.filter((answer) => answer.question === question && answer.meant === meant).length;

/** What a result has to say of the first question: the counts as they were drawn. */
export function expectedOf(plan: Plan, drawn: readonly Drawn[]): object {
  const count = (meant: Drawn["meant"]) => howMany(drawn, meant);
  const judgments = plan.people * plan.repeats;
  if (count("unlike told") + count("like told") > 0) {
    return {
      family: "kinds",
      unlike: { told: count("unlike told"), of: count("unlike told") + count("unlike not") },
      like: { told: count("like told"), of: count("like told") + count("like not") },
    };
  }
  if (count("right") > 0) {
    const ticked = drawn.filter(({ question, guess }) => question === 1 && guess);
    const guesses = { ticked: ticked.length, right: howMany(ticked, "right") };
    return { family: "choice", judgments, correct: count("right"), guesses };
  }
  const counts = { first: count("first"), second: count("second"), none: count("none") };
  // half of the undecided go to each product; one that is left over goes to neither
  const split = plan.noPreference === "split" ? Math.floor(counts.none / 2) : 0;
  const tested = { first: counts.first + split, second: counts.second + split };
  return { family: "pair", counts, tested, judgments: tested.first + tested.second };
}
