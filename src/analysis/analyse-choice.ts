import { shapeOf } from "../model/method.ts";
import type { AnswerRow, StudyRecord } from "../model/record.ts";
import type { Caveat, ChoiceResult } from "../model/result.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { caveatsOfChoice, caveatsOfResult, caveatsOfStudy, tooFewAnswers } from "./caveats.ts";
import { type ChoiceCounts, type ChoiceGoal, choiceStatistics } from "./choice.ts";
import { type ChoiceGiven, choiceOfPeople, peopleOf, seatName } from "./choice-people.ts";
import { type Marked, markedChoices, onePerSeat, ordersServed, plannedSessions, servedOn } from "./marking.ts";
import { choiceMethod } from "./method.ts";
import { askedProperties, withFamily } from "./questions.ts";
import { sessionsOf } from "./sessions.ts";
import { stoppedChoice } from "./stopped-choice.ts";
import { untilStop } from "./stopping.ts";
import { studyPart } from "./study-part.ts";

/**
 * As `analyse`, for a choice test in which one answer is right. Trays that a seat has beyond what was planned stand for
 * no further person: for likeness each person then counts once.
 */
export function analyseChoice(record: StudyRecord, app: string): ChoiceResult {
  const { plan } = record;
  const properties = shapeOf(plan.method).property ? askedProperties(record) : [];
  const asked = Array.from({ length: Math.max(1, properties.length) }, (_, at) =>
    questionOf(record, at, properties[at]),
  );
  const { first: counted, questions } = withFamily(asked);
  const statistics = withheldIf(!record.keyMatches, counted);
  const [{ marked, leftOut }] = asked as [Question, ...Question[]];
  const orders = ordersServed(record, marked, choiceMethod(plan.method).orders).map((order) => ({
    order,
    ...countsOf(marked.filter((answer) => answer.order === order)),
  }));
  const sessions = plannedSessions(record);
  const bySession = sessionsOf(
    marked.map((answer) => ({ session: sessions.of(answer), correct: answer.correct })),
    sessions.names,
  );
  const ticked = marked.filter(({ guess }) => guess);
  return {
    v: 1,
    app,
    study: studyPart(record, servedOn(marked)),
    ...statistics,
    questions: record.keyMatches ? questions : questions.map((row) => ({ ...row, outcome: row.outcome && "withheld" })),
    sessions: bySession,
    orders,
    oddPositions: placesOf(record).map((position) => ({
      position,
      ...countsOf(marked.filter((answer) => answer.oddPosition === position)),
    })),
    caveats: [
      ...caveatsOfStudy(
        record,
        servedOn(marked),
        statistics.stopping?.early ? null : tooFewAnswers(record, marked.length),
        orders.map(({ judgments }) => judgments),
      ),
      ...personOnce(leftOut),
      ...caveatsOfChoice(statistics, plan.standsFor),
      ...caveatsOfResult({ sessions: bySession, questions }),
    ],
    departures: record.departures,
    guesses: { ticked: ticked.length, right: ticked.filter(({ correct }) => correct).length },
  };
}

type Question = { inFamily: boolean; statistics: ChoiceStatistics; marked: Marked[]; leftOut: number[] };

/** One question of the trays by itself. With a stopping rule the answers within the deciding look are what counts. */
function questionOf(
  record: StudyRecord,
  at: number,
  property: ReturnType<typeof askedProperties>[number] | undefined,
): Question {
  const { plan } = record;
  const all = markedChoices(record, at + 1);
  const unit = plan.goal === "similarity" && plan.repeats === 1;
  const { kept, leftOut } = unit ? onePerSeat(all) : { kept: all, leftOut: [] };
  const stopped = untilStop(record, kept);
  const marked = stopped?.counted ?? kept;
  const alone = choiceOfPeople(
    givenOf(plan),
    peopleOf(marked.map(({ seat, correct }) => ({ panelist: seatName(seat), correct }))),
  );
  const { inFamily = true, ...asked } = property ?? {};
  const named = { ...alone, property: property ? { ...propertyOf(asked) } : null };
  return { inFamily, statistics: stopped ? stoppedChoice(named, stopped) : named, marked, leftOut };
}

const propertyOf = ({
  name = "",
  comparative = "",
  expected = null,
}: Partial<NonNullable<ChoiceStatistics["property"]>>) => ({
  name,
  comparative,
  expected,
});

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

/** Nobody can say which answers were right when the opened key does not match its seal. */
const withheldIf = (withheld: boolean, statistics: ChoiceStatistics): ChoiceStatistics =>
  withheld ? { ...statistics, outcome: "withheld" } : statistics;

/** Where a right answer can stand; nothing goes with itself. */
function placesOf({ plan, opened }: StudyRecord): number[] {
  const samples = opened.key.trays[0]?.samples.length ?? 0;
  const places = Array.from({ length: samples }, (_, at) => at + 1);
  return shapeOf(plan.method).answer === "partner" ? places.slice(1) : places;
}

const personOnce = (trays: number[]): Caveat[] => (trays.length > 0 ? [{ what: "person-once", trays }] : []);

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
