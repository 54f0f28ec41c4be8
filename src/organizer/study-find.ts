import type { StudyState } from "../log/fold.ts";
import type { Plan } from "../model/plan.ts";
import { progressOf } from "./day.ts";
import { lastAt, planOf, type Stage, stageOf } from "./study-stage.ts";

/** One study as the list shows it. */
export type Known = {
  id: string;
  plan: Plan;
  stage: Stage;
  answered: number;
  planned: number;
  /** By the clocks of the devices; null when nothing is known. */
  begun: string | null;
  last: string | null;
};

/** Studies that have a plan, by their last change, latest first. */
export function knownStudies(studies: readonly { id: string; state: StudyState }[]): Known[] {
  return studies
    .flatMap(({ id, state }) => {
      const plan = planOf(state);
      if (!plan) return [];
      const { answered, planned } = progressOf(state);
      return [{ id, plan, stage: stageOf(state), answered, planned, begun: firstAt(state), last: lastAt(state) }];
    })
    .sort((a, b) =>
      (a.last ?? "") < (b.last ?? "") ? 1 : (a.last ?? "") > (b.last ?? "") ? -1 : a.id < b.id ? -1 : 1,
    );
}

export type Sought = { words: string; stage: Stage | null };

/**
 * The studies that hold every word sought, in title, question or names of products, and stand where it is asked for.
 * Small and capital letters, and letters with and without accents, are the same; a part of a word is enough.
 */
export function found(known: readonly Known[], { words, stage }: Sought): Known[] {
  return known.filter((study) => {
    if (stage !== null && study.stage !== stage) return false;
    const { title, objective, products } = study.plan;
    return holdsAll(words, [title, objective, ...products.map(({ name }) => name)]);
  });
}

/** Do the texts hold every word that is sought, in the way of `found`? */
export function holdsAll(words: string, texts: readonly string[]): boolean {
  const text = plain(texts.join("\n"));
  return plain(words)
    .split(/\s+/)
    .every((word) => text.includes(word));
}

const plain = (text: string): string =>
  text
    .normalize("NFD")
    .replace(/\p{Mark}/gu, "")
    .toLowerCase();

function firstAt(state: StudyState): string | null {
  let first: string | null = null;
  for (const { at } of state.facts.values()) if (first === null || at < first) first = at;
  return first;
}
