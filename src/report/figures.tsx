import type { ComponentChild } from "preact";
import type { AttributeText, ChanceText, Description, Part } from "../analysis/describe.ts";
import { byHolm, isStrip } from "../analysis/describe-family.ts";
import { stepsOf, valueEnds } from "../analysis/steps.ts";
import type { KindsResult, PairResult, Result, ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import { type ChanceFigures, chanceOfChoice, chanceOfKinds, chanceOfPreference, dotLayout } from "../ui/dot-layout.ts";
import { ChanceDots, ChanceTable, type ChanceTableWords } from "../ui/dot-picture.tsx";
import { type IntervalFigures, IntervalRows } from "../ui/interval-picture.tsx";
import { type MarkFigures, markLayout } from "../ui/mark-layout.ts";
import { Marks } from "../ui/mark-picture.tsx";
import { roundRange } from "../ui/number-axis.ts";
import { reader } from "../words/en/reader.ts";
import { points } from "../words/number.ts";
import { besideFigures } from "./beside-figures.tsx";
import { kindsShares, peopleFigure, questionsFigure, rulerFigures } from "./choice-figures.tsx";
import { curveFigure } from "./curve-figures.tsx";
import { MarkTable, ShareTable } from "./figure-tables.tsx";
import { portionFigures } from "./portion-figures.tsx";
import { rankFigures } from "./rank-figures.tsx";
import { rightFigure, stepsFigure } from "./steps-figures.tsx";
import { stripFigure } from "./strip-figures.tsx";

type Ids = { caption: string; table: string };

/** One picture of a result: how it is drawn at any width, what stands below it, and the table that says the same. */
export type Figure = {
  /** Part of file names and ids: "chance", "marks-2". */
  id: string;
  name: string;
  caption: (width: number) => string;
  /** `stack`: pixels for the tallest stack of dots, where there are any. */
  draw: (width: number, ids?: Ids, stack?: number) => ComponentChild;
  /** Null when that table stands on the page anyway: then `tableId` says where. */
  table: ComponentChild | null;
  tableId: string;
};

/** Pairs in one picture: more are drawn in several, so that each fits on a page. */
const pairsInPicture = 12;

/** The pictures of the question itself, in the order of the page. */
export function figuresOf(result: Result, said: Description): Figure[] {
  switch (result.family) {
    case "choice":
      return [
        ...(said.chance && result.judgments > 0
          ? [chanceFigure(chanceOfChoice(result), said.chance, choiceHeads(result.goal))]
          : []),
        ...rulerFigures(result),
      ];
    case "pair":
      return result.people === 0 ? [] : [...preferenceFigures(result, said), ...rulerFigures(result)];
    case "kinds":
      return kindsFigures(result, said);
    case "rank":
      return rankFigures(result);
    case "portions":
      return portionFigures(result);
    case "scale":
      return result.attributes.flatMap((_, at) => attributeFigures(result, said, at));
  }
}

/** Pictures that a file may hold: those of the question, and those of the parts below it. */
export const allFigures = (result: Result, said: Description, lead: boolean): Figure[] => [
  ...figuresOf(result, said),
  ...said.parts.flatMap(({ id }) => partFigures(result, said, id, lead)),
];

/** The pictures of a part; none where its table is all there is. */
export function partFigures(result: Result, said: Description, part: Part["id"], lead: boolean): Figure[] {
  if (part === "beside") return besideFigures(result, said);
  const figure = partFigure(result, said, part, lead);
  return figure ? [figure] : [];
}

function partFigure(result: Result, said: Description, part: Part["id"], lead: boolean): Figure | null {
  if (isCurve(part)) return result.family === "scale" ? curveFigure(result, part) : null;
  if (isStrip(part)) return result.family === "scale" ? stripFigure(result, said, part) : null;
  if (isRight(part)) return result.family === "scale" ? rightFigure(result, said, part) : null;
  if (part === "people") {
    const rows = said.parts.find(({ id }) => id === part)?.table.rows.length ?? 0;
    return showsPeople(result, lead) && !isLong(rows) ? peopleFigure(result, said) : null;
  }
  return part === "questions" ? questionsFigure(result) : null;
}

export const isCurve = (id: string): id is `curve-${number}` => /^curve-\d+$/.test(id);
const isRight = (id: string): id is `right-${number}` => /^right-\d+$/.test(id);
/** Does the picture belong to a part of the page with sentences of its own? */
export const ofPart = (id: string): boolean => isCurve(id) || isRight(id);

/** More rows than this are for a file, not for a page. */
const mostRows = 200;
export const isLong = (rows: number): boolean => rows > mostRows;

/** In a small panel a pseudonym hides nobody: a reader then sees no counts person by person. */
export const showsPeople = (result: Result, lead: boolean): boolean =>
  lead || result.study === null || result.people >= leastInGroup;

function kindsFigures(result: KindsResult, said: Description): Figure[] {
  if (!said.chance || result.judgments === 0) return [];
  const { kindsOf, mark } = reader.pictures.chance;
  const heads = { right: said.chance.axis, panels: kindsOf, mark };
  return [chanceFigure(chanceOfKinds(result), said.chance, heads), kindsShares(result), ...rulerFigures(result)];
}

const choiceHeads = (goal: "difference" | "similarity"): ChanceTableWords => {
  const { right, panels, panelsAtLimit, mark } = reader.pictures.chance;
  return { right, mark, panels: goal === "difference" ? panels : panelsAtLimit };
};

function chanceFigure(figures: ChanceFigures, words: ChanceText, heads: ChanceTableWords): Figure {
  const counts = (width: number): number =>
    Math.max(1, ...dotLayout(figures, width).columns.map(({ first, last }) => last - first + 1));
  return {
    id: "chance",
    tableId: "chance-table",
    name: reader.pictures.chance.name,
    caption: (width) =>
      [words.caption, counts(width) > 1 ? reader.pictures.joined(counts(width)) : ""].join(" ").trim(),
    draw: (width, ids, stack) => (
      <ChanceDots figures={figures} width={width} words={words} {...(stack ? { stack } : {})} {...ids} />
    ),
    table: <ChanceTable figures={figures} words={words} heads={heads} />,
  };
}

function preferenceFigures(result: PairResult, said: Description): Figure[] {
  const { chance, shares } = reader.pictures;
  const { products, counts, ofAll, people, noPreference } = result;
  const [first, second] = products;
  const asked = [
    { id: "first", label: shares.prefer(first), count: counts.first, share: ofAll.first },
    { id: "none", label: shares.none, count: counts.none, share: ofAll.none },
    { id: "second", label: shares.prefer(second), count: counts.second, share: ofAll.second },
  ].filter(({ id }) => id !== "none" || noPreference !== "not-offered");
  const rows = asked.map(({ id, label, share }) => ({
    ...{ id, label, text: share.kind === "none" ? shares.alone(share.estimate) : shares.value(share) },
    ...{ estimate: percent(share.estimate), low: percent(share.low), high: percent(share.high) },
  }));
  const figures: IntervalFigures = { rows, range: { low: 0, high: 100 }, zero: false };
  const heads = { right: said.chance?.axis ?? "", panels: chance.votesOf, mark: chance.mark };
  const seen =
    said.chance && result.judgments > 0 ? [chanceFigure(chanceOfPreference(result), said.chance, heads)] : [];
  return [
    ...seen,
    {
      id: "shares",
      tableId: "shares-table",
      name: shares.name,
      caption: () => shares.caption(people, ofAll.first.confidence, noPreference !== "not-offered"),
      draw: (width, ids) => <IntervalRows figures={figures} width={width} {...ids} />,
      table: <ShareTable rows={asked} />,
    },
  ];
}

/** Fewer people than this are not broken down for a reader: in a small group an answer is a person's answer. */
export const leastInGroup = 5;

const percent = (share: number | null): number | null => (share === null ? null : share * 100);

/** The pictures of one attribute: everybody's marks, and for more than two products the pairs. */
export function attributeFigures(result: ScaleResult, said: Description, at: number): Figure[] {
  const { marks } = reader.pictures;
  const attribute = result.attributes[at];
  const text = said.attributes[at];
  if (!attribute || !text || text.apart) return [];
  const figures = markFigures(result, attribute, text);
  if (figures.panelists.length === 0) return [];
  const counted = stepsFigure(attribute, text, at);
  const steps = figures.steps !== null;
  const averaged = attribute.repeats > 1;
  const mixed = attribute.leads === "mixed";
  const people = figures.panelists.length;
  const caption = (width: number): string => {
    const { stacks } = markLayout(figures, width);
    if (!stacks) return (figures.difference ? marks.captionTwo : marks.captionMore)(people, averaged, steps, mixed);
    const { stacked, stackedDifference } = reader.large;
    return [stacked(people, stacks.each, averaged), ...(figures.difference ? [stackedDifference(mixed)] : [])].join(
      " ",
    );
  };
  const shown: Figure = {
    id: `marks-${at + 1}`,
    tableId: `marks-${at + 1}-table`,
    name: marks.name(text.heading),
    caption,
    draw: (width, ids) => <Marks figures={figures} width={width} {...ids} />,
    table: isLong(people) ? (
      <p class="fine">{reader.large.noTable(people)}</p>
    ) : (
      <MarkTable products={result.products} attribute={attribute} decimals={text.decimals} />
    ),
  };
  const first = counted ? [counted, shown] : [shown];
  return result.products.length > 2 ? [...first, ...contrastFigures(result, attribute, text, at)] : first;
}

function markFigures(result: ScaleResult, attribute: AttributeResult, { decimals }: AttributeText) {
  const { marks } = reader.pictures;
  const { minusOf } = reader.scale;
  const { products, scale, confidence } = result;
  const meanOf = (name: string) => attribute.means.find(({ product }) => product === name)?.estimate ?? null;
  const panelists = attribute.panelists.filter(({ values }) => values.some((value) => value !== null));
  const values = panelists.flatMap(({ values }) => values.filter((value) => value !== null));
  const [pair] = products.length === 2 ? attribute.contrasts : [];
  return {
    products: products.map((name) => ({ name, mean: meanOf(name), text: marks.mean(meanOf(name), decimals) })),
    panelists,
    range: valueEnds(attribute.form, scale) ?? roundRange(values),
    steps: stepsOf(attribute.form),
    ends: attribute.lowAnchor || attribute.highAnchor ? { low: attribute.lowAnchor, high: attribute.highAnchor } : null,
    difference: pair
      ? {
          from: products.indexOf(pair.second),
          label: minusOf(pair.first, pair.second),
          text: marks.difference(pair.low, pair.high, pair.difference, confidence, decimals),
          ...{ estimate: pair.difference, low: pair.low, high: pair.high },
        }
      : null,
  } satisfies MarkFigures;
}

/** The table of pairs stands below the pictures, once for all of them. */
export const pairsTableId = (at: number): string => `pairs-${at + 1}-table`;

function contrastFigures(result: ScaleResult, attribute: AttributeResult, text: AttributeText, at: number): Figure[] {
  const words = reader.pictures.contrasts;
  const { minusOf, byOf } = reader.scale;
  const { decimals } = text;
  const rows = attribute.contrasts.map(({ compared, first, second, difference, pValueAdjusted, ...ends }) => ({
    id: `${compared} ${first} ${second}`,
    label: compared === "interaction" ? byOf(first, second) : minusOf(first, second),
    text: words.row(
      ...([difference, ends.lowTogether, ends.highTogether].map((value) => points(value, decimals)) as [
        string,
        string,
        string,
      ]),
      words.p(pValueAdjusted, result.alpha),
    ),
    ...{ estimate: difference, low: ends.lowTogether, high: ends.highTogether },
  }));
  // all parts of one picture share an axis
  const range = roundRange([0, ...rows.flatMap(({ low, high }) => [low, high])]);
  const parts = Math.ceil(rows.length / pairsInPicture);
  return Array.from({ length: parts }, (_, part) => {
    const figures = { rows: rows.slice(part * pairsInPicture, (part + 1) * pairsInPicture), range, zero: true };
    return {
      id: `pairs-${at + 1}${parts > 1 ? `-${part + 1}` : ""}`,
      name: `${words.name(text.heading)}${parts > 1 ? ` (${part + 1}/${parts})` : ""}`,
      caption: () =>
        words.caption(
          result.confidence,
          unitOf(attribute.form),
          attribute.leads === "mixed",
          byHolm(result, attribute),
        ),
      draw: (width: number, ids?: Ids) => <IntervalRows figures={figures} width={width} {...ids} />,
      table: null,
      tableId: pairsTableId(at),
    };
  });
}
