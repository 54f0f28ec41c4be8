import { shapeOf } from "../model/method.ts";
import type { AnswerRow, StudyRecord } from "../model/record.ts";
import type { ChoiceResult } from "../model/result.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { caveatsOfChoice, caveatsOfResult, caveatsOfStudy, personOnce, tooFewAnswers } from "./caveats.ts";
import { type ChoiceCounts, type ChoiceGoal, choiceStatistics, type OfCounts } from "./choice.ts";
import { type ChoiceGiven, choiceOfPeople, peopleOf, seatName } from "./choice-people.ts";
import { type Marked, markedChoices, onePerSeat, ordersServed, plannedSessions, servedOn } from "./marking.ts";
import { type AskedProperty, type AskedQuestion, answered } from "./questions.ts";
import { sessionsOf } from "./sessions.ts";
import { stoppedChoice } from "./stopped-choice.ts";
import { untilStop } from "./stopping.ts";
import { studyPart } from "./study-part.ts";

/**
 * As `analyse`, for a choice test in which one answer is right. Trays that a seat has beyond what was planned stand for
 * no further person: for likeness each person then counts once.
 */
export function analyseChoice(record: StudyRecord, app: string, ofCounts: OfCounts = choiceStatistics): ChoiceResult {
  const { plan } = record;
  const { question, statistics, questions } = answered<ChoiceStatistics, Question>(record, (at, property) =>
    questionOf(record, at, property, ofCounts),
  );
  const { marked, leftOut } = question;
  const served = servedOn(marked);
  const checks = checksOf(record, marked);
  return {
    v: 1,
    app,
    study: studyPart(record, served, app),
    ...statistics,
    questions,
    ...checks,
    caveats: [
      ...caveatsOfStudy(
        record,
        served,
        statistics.stopping?.early ? null : tooFewAnswers(record, marked.length),
        checks.orders.map(({ judgments }) => judgments),
      ),
      ...personOnce(leftOut),
      ...caveatsOfChoice(statistics, plan.standsFor),
      ...caveatsOfResult({ sessions: checks.sessions, questions }),
    ],
    departures: record.departures,
  };
}

/** What stands beside the test of the first question: by order, by place, by session, and who said it was a guess. */
function checksOf(
  record: StudyRecord,
  marked: readonly Marked[],
): Pick<ChoiceResult, "orders" | "oddPositions" | "sessions" | "guesses"> {
  const sessions = plannedSessions(record);
  const ticked = marked.filter(({ guess }) => guess);
  return {
    orders: ordersServed(record, marked).map((order) => ({
      order,
      ...countsOf(marked.filter((answer) => answer.order === order)),
    })),
    oddPositions: placesOf(record).map((position) => ({
      position,
      ...countsOf(marked.filter((answer) => answer.oddPosition === position)),
    })),
    sessions: sessionsOf(
      marked.map((answer) => ({ session: sessions.of(answer), correct: answer.correct })),
      sessions.names,
    ),
    guesses: { ticked: ticked.length, right: ticked.filter(({ correct }) => correct).length },
  };
}

type Question = AskedQuestion<ChoiceStatistics> & { marked: Marked[]; leftOut: number[] };

/** One question of the trays by itself. With a stopping rule the answers within the deciding look are what counts. */
function questionOf(
  record: StudyRecord,
  at: number,
  property: AskedProperty | undefined,
  ofCounts: OfCounts,
): Question {
  const { plan } = record;
  const all = markedChoices(record, at + 1);
  const unit = plan.goal === "similarity" && plan.repeats === 1;
  const { kept, leftOut } = unit ? onePerSeat(all) : { kept: all, leftOut: [] };
  const stopped = untilStop(record, kept);
  const marked = stopped?.counted ?? kept;
  const people = peopleOf(marked.map(({ seat, correct }) => ({ panelist: seatName(seat), correct })));
  const atRisk = (risk: number): ChoiceStatistics => {
    const alone = choiceOfPeople(givenOf(planAt(plan, risk)), people, ofCounts);
    return { ...alone, property: property?.asked ?? null };
  };
  const named = atRisk(plan.goal === "similarity" ? plan.similarity.beta : plan.alpha);
  const inFamily = property?.inFamily ?? true;
  return { inFamily, statistics: stopped ? stoppedChoice(named, stopped) : named, atRisk, marked, leftOut };
}

/** The plan with another risk of a yes that is false: alpha, or beta where likeness is to be shown. */
const planAt = (plan: StudyRecord["plan"], risk: number): StudyRecord["plan"] =>
  plan.goal === "similarity" ? { ...plan, similarity: { ...plan.similarity, beta: risk } } : { ...plan, alpha: risk };

const goalOf = ({ goal, similarity }: StudyRecord["plan"]): ChoiceGoal =>
  goal === "difference"
    ? { goal }
    : {
        goal,
        limit: { discriminatorShare: similarity.limit, dPrime: similarity.dPrime, beta: similarity.beta },
      };

const givenOf = (plan: StudyRecord["plan"]): ChoiceGiven => ({
  ...goalOf(plan),
  method: plan.method,
  alpha: plan.alpha,
  confidence: plan.confidence,
  sought: {
    discriminatorShare: plan.discriminatorShareSought,
    dPrime: plan.dPrimeSought,
    people: plan.people,
    judgments: plan.people * plan.repeats,
  },
});

/** Where a right answer can stand; nothing goes with itself. */
function placesOf({ plan, opened }: StudyRecord): number[] {
  const samples = opened.key.trays[0]?.samples.length ?? 0;
  const places = Array.from({ length: samples }, (_, at) => at + 1);
  return shapeOf(plan.method).answer === "partner" ? places.slice(1) : places;
}

const countsOf = (answers: readonly Marked[]) => ({
  judgments: answers.length,
  correct: answers.filter(({ correct }) => correct).length,
});

/**
 * The result of two counts that came without a study.
 * Example  resultOfCounts({ method: "triangle", goal: "difference", alpha: 0.05, correct: 25, judgments: 50 }, "1").criticalNumber // 23
 */
export const resultOfCounts = (counts: ChoiceCounts, app: string): ChoiceResult =>
  withoutStudy(choiceStatistics(counts), app);

/**
 * The result of single answers that came without a study; several of one person as `choiceOfPeople` has them.
 *
 * Takes    rows: no person and repeat twice; `readAnswers` sees to that, with the lines at fault
 * Throws   what `choiceStatistics` throws
 */
export const resultOfRows = (given: ChoiceGiven, rows: readonly AnswerRow[], app: string): ChoiceResult =>
  withoutStudy(choiceOfPeople(given, peopleOf(rows)), app);

function withoutStudy(statistics: ChoiceStatistics, app: string): ChoiceResult {
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    questions: [],
    sessions: null,
    orders: [],
    oddPositions: [],
    caveats: caveatsOfChoice(statistics, ""),
    departures: [],
    guesses: null,
  };
}
