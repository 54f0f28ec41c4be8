import type { PairStatistics } from "../model/result-pair.ts";
import { panelsOf } from "./chance-panels.ts";
import { signFlipP, signFlips } from "./sign-flip.ts";
import { spreadChiSquare, spreadFit } from "./spread.ts";

/** One person's answers: for the first product, for the second, and for neither. */
export type PersonVotes = { panelist: string; first: number; second: number; none: number };

type Parts = {
  people: number;
  /** People with an answer for either product. */
  choosing: number;
  byPerson: PairStatistics["byPerson"];
  /** Null: nothing but one answer a person, or one person alone, and the votes themselves are tested. */
  pValue: number | null;
  guessingPanels: number[] | null;
  repeats: Pick<PairStatistics, "panelists" | "betaBinomial" | "chanceCorrected" | "spread">;
};

const nothing = { panelists: [], betaBinomial: null, chanceCorrected: null, spread: null };

/**
 * What several answers a person make of a pair. An answer of "neither" leans to no side, and so changes nobody's lead,
 * whatever the rule for it.
 *
 * Takes    panelists: empty where everybody gave one answer; answers: of all; tested: as the rule leaves them
 */
export function personParts(
  panelists: readonly PersonVotes[],
  answers: number,
  tested: { first: number; second: number },
  confidence: number,
): Parts {
  const own = panelists.filter(({ first, second, none }) => first + second + none > 0);
  const plain = { byPerson: null, pValue: null, guessingPanels: null };
  if (own.length === 0 || own.length === answers) {
    return { people: answers, choosing: tested.first + tested.second, ...plain, repeats: nothing };
  }
  const choosing = own.filter(({ first, second }) => first + second > 0);
  const counts = choosing.map(({ first, second }) => ({ right: first, of: first + second }));
  const repeats = {
    panelists: own.map(({ panelist, first, second }) => ({ panelist, correct: first, judgments: first + second })),
    betaBinomial: spreadFit(counts, 0, confidence),
    chanceCorrected: null,
    spread: spreadChiSquare(counts),
  };
  const people = { people: own.length, choosing: choosing.length, repeats };
  if (own.length === 1) return { ...people, ...plain };
  const leads = own.map(({ first, second }) => first - second);
  return {
    ...people,
    byPerson: {
      first: leads.filter((lead) => lead > 0).length,
      second: leads.filter((lead) => lead < 0).length,
      tied: leads.filter((lead) => lead === 0).length,
    },
    pValue: signFlipP(leads),
    guessingPanels: panelsByLeads(leads, tested.first + tested.second),
  };
}

/** Votes for the first in 100 panels whose people lead as much as here, to either side: half of votes and total lead. */
function panelsByLeads(leads: readonly number[], judgments: number): number[] {
  const { most, probabilities } = signFlips(leads);
  const votes = new Float64Array(judgments + 1);
  for (let total = -most; total <= most; total += 2) votes[(judgments + total) / 2] = probabilities[most + total] ?? 0;
  return panelsOf(votes);
}
