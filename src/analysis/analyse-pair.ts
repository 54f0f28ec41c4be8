import { asPair } from "../model/method.ts";
import { problem } from "../model/problem.ts";
import type { ChoiceRow, StudyRecord } from "../model/record.ts";
import type { Caveat, PairResult } from "../model/result.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { caveatsOfPair, caveatsOfResult, caveatsOfStudy, personOnce, tooFewAnswers } from "./caveats.ts";
import { seatName } from "./choice-people.ts";
import { type MarkedPair, markedPairs, onePerSeat, ordersServed, plannedSessions, servedOn } from "./marking.ts";
import { type PairCounts, pairStatistics } from "./pair.ts";
import type { PersonVotes } from "./pair-people.ts";
import { type AskedProperty, type AskedQuestion, answered } from "./questions.ts";
import { sessionsOf } from "./sessions.ts";
import { studyPart } from "./study-part.ts";
import { twoAfcRight } from "./thurstone.ts";

type Question = AskedQuestion<PairStatistics> & { marked: MarkedPair[]; leftOut: number[] };

/**
 * As `analyse`, for a pair in which neither product is right: a paired preference, or a paired difference in which either
 * may have more. Trays of a seat beyond those planned stand for no further person.
 */
export function analysePair(record: StudyRecord, app: string): PairResult {
  const { plan } = record;
  const { question, statistics, questions } = answered<PairStatistics, Question>(record, (at, property) =>
    questionOf(record, at, property),
  );
  const { marked, leftOut } = question;
  const orders = ordersServed(record, marked).map((order) => {
    const served = marked.filter((answer) => answer.order === order);
    return { order, judgments: served.length, correct: served.filter(({ place }) => place === 1).length };
  });
  const sessions = sessionsIn(record, marked);
  return {
    v: 1,
    app,
    study: studyPart(record, servedOn(marked), app),
    ...statistics,
    questions,
    sessions,
    orders,
    caveats: [
      ...caveatsOfStudy(
        record,
        servedOn(marked),
        tooFewAnswers(record, marked.length),
        orders.map(({ judgments }) => judgments),
      ),
      ...personOnce(leftOut),
      ...caveatsOfPair(statistics, plan.standsFor),
      ...caveatsOfResult({ sessions, questions }),
      ...panelNotCustomers(plan),
    ],
    departures: record.departures,
  };
}

function questionOf(record: StudyRecord, at: number, property: AskedProperty | undefined): Question {
  const { plan } = record;
  const all = markedPairs(record, at + 1);
  const single = onePerSeat(all);
  const { kept: marked, leftOut } = plan.repeats === 1 ? single : { kept: all, leftOut: [] };
  const [first, second] = plan.products.map(({ name }) => name);
  // a plan keeps what was typed for another method, or another rule: it is no part of this study
  const noPreference = plan.method === "paired-preference" ? plan.noPreference : "not-offered";
  const norm = noPreference === "not-offered" ? null : plan.blankNorm;
  const votes = votesOf(marked.map(({ seat, picked }) => ({ panelist: seatName(seat), picked })));
  const counts = {
    method: asPair(plan.method),
    property: property?.asked ?? null,
    products: [first ?? "", second ?? ""],
    confidence: plan.confidence,
    noPreference,
    ...votes,
    sought: { share: shareSought(plan), people: plan.people },
    blank: norm && { ...norm, here: nonesOf(single.kept) },
  } as const;
  const atRisk = (alpha: number): PairStatistics => pairStatistics({ ...counts, alpha });
  return { inFamily: property?.inFamily ?? true, statistics: atRisk(plan.alpha), atRisk, marked, leftOut };
}

/** The plan names a distance, which a preference has not, or by how much the one side is to outnumber the other. */
const shareSought = ({ method, dPrimeSought, discriminatorShareSought }: StudyRecord["plan"]): number =>
  dPrimeSought === null || method === "paired-preference"
    ? (1 + discriminatorShareSought) / 2
    : twoAfcRight(dPrimeSought);

const nonesOf = (answers: readonly MarkedPair[]) => ({
  none: answers.filter(({ picked }) => picked === "none").length,
  of: answers.length,
});

/** Of those who chose: votes for the first product. */
function sessionsIn(record: StudyRecord, marked: readonly MarkedPair[]): PairResult["sessions"] {
  const sessions = plannedSessions(record);
  const chosen = marked.filter(({ picked }) => picked !== "none");
  return sessionsOf(
    chosen.map((answer) => ({ session: sessions.of(answer), correct: answer.picked === "first" })),
    sessions.names,
  );
}

const panelNotCustomers = ({ method, panelType, standsFor }: StudyRecord["plan"]): Caveat[] =>
  method === "paired-preference" && panelType !== "consumers"
    ? [{ what: "panel-not-customers", panelType, standsFor }]
    : [];

/** All votes, and the same person by person. */
function votesOf(
  answers: readonly { panelist: string; picked: MarkedPair["picked"] }[],
): Pick<PairCounts, "first" | "second" | "none"> & { panelists: PersonVotes[] } {
  const people = new Map<string, PersonVotes>();
  const votes = { first: 0, second: 0, none: 0 };
  for (const { panelist, picked } of answers) {
    const own = people.get(panelist) ?? { panelist, first: 0, second: 0, none: 0 };
    people.set(panelist, own);
    own[picked] += 1;
    votes[picked] += 1;
  }
  return { ...votes, panelists: [...people.values()] };
}

/**
 * The result of three counts that came without a study.
 * Throws   what `pairStatistics` throws
 */
export function resultOfPair(counts: PairCounts, app: string): PairResult {
  const statistics = pairStatistics(counts);
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    questions: [],
    sessions: null,
    orders: [],
    caveats: caveatsOfPair(statistics, ""),
    departures: [],
  };
}

/**
 * The result of single answers that came without a study; several of one person are tested by people's own leads.
 *
 * Takes    given.products: as the rows name them, first and second
 * Throws   Problem "analysis/unknown-product", and what `pairStatistics` throws
 */
export function resultOfChoices(
  given: Pick<PairCounts, "method" | "products" | "alpha" | "confidence" | "noPreference">,
  rows: readonly ChoiceRow[],
  app: string,
): PairResult {
  const [first, second] = given.products;
  const answers = rows.map(({ panelist, choice }) => {
    if (choice === null) return { panelist, picked: "none" as const };
    if (choice !== first && choice !== second) throw problem("analysis/unknown-product", { product: choice });
    return { panelist, picked: choice === first ? ("first" as const) : ("second" as const) };
  });
  return resultOfPair({ ...given, ...votesOf(answers) }, app);
}
