import type { QuestionResult, SpreadFit } from "../model/outcome.ts";
import type { ChoiceResult, KindsResult, PairResult } from "../model/result.ts";
import type { StoppingPath } from "../model/result-choice.ts";
import type { ReportWords } from "../words/en/report.ts";
import { percent, pText, shortNumber } from "../words/number.ts";
import type { Part, WordTable } from "./describe.ts";

type Several = ChoiceResult | PairResult;

/** What only some studies have, each part with its sentences and its table. */
export function choiceParts(result: ChoiceResult, words: ReportWords): Part[] {
  if (result.outcome === "withheld") return [];
  return [
    peoplePart(result, words),
    sessionsPart(result, words),
    questionsPart(result, words),
    stoppingPart(result, words),
  ].filter((part) => part !== null);
}

/** As `choiceParts`, of a pair in which nobody is right. */
export function pairParts(result: PairResult, words: ReportWords): Part[] {
  if (result.outcome === "withheld") return [];
  return [
    peoplePart(result, words),
    sessionsPart(result, words),
    questionsPart(result, words),
    normPart(result, words),
  ].filter((part) => part !== null);
}

function peoplePart(result: Several, { parts }: ReportWords): Part | null {
  const { panelists, betaBinomial, chanceCorrected, spread } = result;
  const { people } = parts;
  if (panelists.length === 0) return null;
  const answers = panelists.map(({ judgments }) => judgments);
  const total = answers.reduce((sum, one) => sum + one, 0);
  const [first, second] = result.family === "pair" ? result.products : ["", ""];
  const alone = panelists.length === 1;
  const sentences = alone
    ? [people.one(total)]
    : [
        people.gave(panelists.length, total, Math.min(...answers), Math.max(...answers)),
        ...(result.family === "pair" && result.byPerson ? [people.leads(first, second, result.byPerson)] : []),
        ...(spread ? [people.spread(spread.chiSquare, spread.df, spread.pValue)] : []),
        ...fits(betaBinomial, (fit) => people.beta(fit, result.family === "pair" ? people.first(first) : people.right)),
        ...fits(chanceCorrected, people.corrected),
        ...(betaBinomial || chanceCorrected ? [] : [people.noFit]),
      ];
  return {
    id: "people",
    heading: people.heading,
    sentences,
    table: {
      caption: people.caption,
      columns: result.family === "pair" ? people.columns.first(first) : people.columns.right,
      rows: panelists.map(({ panelist, correct, judgments }) => [panelist, String(correct), String(judgments)]),
      note: "",
    },
  };
}

const fits = (fit: SpreadFit | null, say: (fit: SpreadFit) => string): string[] => (fit ? [say(fit)] : []);

/** Of kinds: everybody's two counts, where people gave several answers. */
export function kindsPeople({ panelists, method }: KindsResult, { parts, kinds }: ReportWords): Part[] {
  const { people } = parts;
  if (panelists.length === 0) return [];
  const total = panelists.reduce((sum, { unlike, like }) => sum + unlike + like, 0);
  const answers = panelists.map(({ unlike, like }) => unlike + like);
  const sentences =
    panelists.length === 1
      ? [people.one(total)]
      : [people.gave(panelists.length, total, Math.min(...answers), Math.max(...answers)), people.kinds];
  return [
    {
      id: "people",
      heading: people.heading,
      sentences,
      table: {
        caption: people.caption,
        columns: people.kindsColumns(kinds.rows.told(method, "unlike"), kinds.rows.told(method, "like")),
        rows: panelists.map((one) => [
          one.panelist,
          people.of(one.unlikeTold, one.unlike),
          people.of(one.likeTold, one.like),
        ]),
        note: "",
      },
    },
  ];
}

function sessionsPart(result: Several, { parts }: ReportWords): Part | null {
  const { sessions } = result;
  if (!sessions) return null;
  const words = parts.sessions;
  return {
    id: "sessions",
    heading: words.heading,
    sentences: [words.planned, words.differ(sessions.pValue, sessions.exact)],
    table: {
      caption: words.caption,
      columns: result.family === "pair" ? words.columns.first(result.products[0]) : words.columns.right,
      rows: sessions.rows.map(({ session, correct, judgments }) => [
        session.trim() || words.unnamed,
        String(correct),
        String(judgments),
        judgments === 0 ? "" : percent(correct / judgments),
      ]),
      note: "",
    },
  };
}

function questionsPart(result: Several, { parts }: ReportWords): Part | null {
  const { questions, alpha } = result;
  if (questions.length < 2) return null;
  const words = parts.questions;
  const family = questions.filter(({ inFamily }) => inFamily).length;
  return {
    id: "questions",
    heading: words.heading,
    sentences: [...(family > 1 ? [words.holm(family)] : []), ...(family < questions.length ? [words.exploratory] : [])],
    table: {
      caption: words.caption,
      columns: result.family === "pair" ? words.columnsTwo(result.products[0]) : words.columns,
      rows: questions.map((question) => questionRow(question, alpha, parts)),
      note: "",
    },
  };
}

function questionRow(
  question: QuestionResult,
  alpha: number,
  { questions: words, people }: ReportWords["parts"],
): string[] {
  const { property, correct, judgments, criticalNumber, pValue, pValueAdjusted, outcome } = question;
  return [
    property.name,
    people.of(correct, judgments),
    criticalNumber === null ? words.none : String(criticalNumber),
    pText(pValue, alpha),
    pValueAdjusted === null ? words.notAdjusted : pText(pValueAdjusted, alpha),
    outcome === null ? words.exploratoryWord : words.outcomes[outcome],
  ];
}

function stoppingPart({ stopping }: ChoiceResult, { parts }: ReportWords): Part | null {
  if (!stopping) return null;
  const words = parts.stopping;
  const { rule, looks, early, planned, after, totalAlpha, beta, soughtShare } = stopping;
  const last = looks.at(-1);
  return {
    id: "stopping",
    heading: words.heading,
    sentences: [
      rule === "looks" ? words.looks(looks.length, totalAlpha) : words.sequential(totalAlpha, beta, soughtShare),
      early && last ? words.early(last.judgments, planned) : last?.said === "go-on" ? words.open : words.whole,
      ...(after > 0 ? [words.after(after)] : []),
      words.order,
      words.lead,
    ],
    table: lookTable(looks, words),
  };
}

function lookTable(looks: NonNullable<StoppingPath>["looks"], words: ReportWords["parts"]["stopping"]): WordTable {
  return {
    caption: words.caption,
    columns: words.columns,
    rows: looks.map(({ judgments, correct, upper, lower, said }) => [
      String(judgments),
      String(correct),
      upper === null ? words.never : shortNumber(upper),
      lower === null ? words.never : shortNumber(lower),
      words.said[said],
    ]),
    note: "",
  };
}

function normPart({ blankNorm, alpha, counts, people }: PairResult, { parts }: ReportWords): Part | null {
  if (!blankNorm) return null;
  const { title, none, of, share, here, pValue } = blankNorm;
  const words = parts.norm;
  return {
    id: "norm",
    heading: words.heading,
    sentences: [words.text(title, here, share, pValue, alpha), words.note],
    table: {
      caption: words.caption,
      columns: words.columns,
      rows: [
        [words.here, String(counts.none), String(people)],
        [title, String(none), String(of)],
      ],
      note: "",
    },
  };
}
