import { leastForVerdict } from "../model/outcome.ts";
import type { PortionsResult } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { FamilyText, Part, Row, WordTable } from "./describe.ts";
import { comparisonText, controlText, describeChew } from "./describe-chew.ts";
import { boundsOf } from "./describe-ledger.ts";

/** What is said of a study of chewed portions. */
export function portionsWords(result: PortionsResult, words: ReportWords): FamilyText {
  const { outcome, masses } = result;
  const withheld = outcome === "withheld";
  const compared = comparisonsOf(result);
  const said = compared.map((difference) => comparisonText(masses, difference));
  const [first] = compared;
  const judged = outcome === "reached" || outcome === "not-reached";
  const size = [
    ...(judged ? [] : said.map(({ found }) => found)),
    ...said.flatMap(({ means, matters }) => [...means, ...matters]),
    ...controlText(masses),
  ];
  return {
    verdict: judged ? said.map(({ found }) => found).join(" ") : verdictOf(result, words),
    size: withheld ? words.portions.size.withheld : size.join(" ") || words.portions.size.none,
    agreed: agreedOf(result, words),
    meaning:
      withheld || !first?.test
        ? ""
        : words.portions.meaning(first.first, first.second, first.test.pValue, result.alpha),
    chance: null,
    rows: rowsOf(result, words),
    attributes: [],
    parts:
      result.judgments === 0
        ? []
        : partsOf(
            result,
            said.flatMap(({ ratio }) => ratio),
            words,
          ),
  };
}

/** What a reader must not take from gains, whatever was found: what they are made of, and what limits these. */
export const limitsOfPortions = ({ masses }: PortionsResult): string[] => describeChew(masses).notShown;

const comparisonsOf = ({ masses }: PortionsResult) =>
  masses.differences.filter(({ percentagePoints }) => percentagePoints.estimate !== null);

function verdictOf(result: PortionsResult, { portions }: ReportWords): string {
  if (result.outcome === "withheld") return portions.verdict.withheld;
  const [first] = comparisonsOf(result);
  if (!first) return portions.verdict.nothing;
  return portions.verdict.tooFewPeople(result.masses.unit === "portion" ? 1 : first.units[0], leastForVerdict);
}

function agreedOf({ study, outcome }: PortionsResult, { agreed, portions }: ReportWords): string {
  if (!study) return agreed.noStudy;
  if (outcome === "reached") return portions.agreed.reached(study.ifYes);
  if (outcome === "not-reached") return portions.agreed["not-reached"](study.ifNo);
  return agreed[outcome](study.ifYes, study.ifNo);
}

function rowsOf(result: PortionsResult, { portions }: ReportWords): Row[] {
  const { rows, values } = portions;
  const { masses, alpha } = result;
  const gains = masses.means.map(({ product, gainPercent }, at): Row => {
    const label = product === masses.control ? rows.control(product) : rows.gain(product);
    return { id: `gain-${at + 1}`, label, ...values.gain(gainPercent.estimate, boundsOf(gainPercent)) };
  });
  const differences = comparisonsOf(result).flatMap((each, at): Row[] => {
    const { first, second, percentagePoints, grams, test } = each;
    const name = (id: string): string => (at === 0 ? id : `${id}-${at + 1}`);
    return [
      {
        ...{ id: name("difference"), label: rows.difference(first, second) },
        ...values.points(percentagePoints.estimate ?? 0, boundsOf(percentagePoints)),
      },
      ...(test ? [{ id: name("pValue"), label: rows.pValue, ...values.p(test.pValue, alpha) }] : []),
      ...(grams.estimate === null
        ? []
        : [{ id: name("grams"), label: rows.grams(first, second), ...values.grams(grams.estimate, boundsOf(grams)) }]),
    ];
  });
  const seconds = meanSeconds(result);
  return [
    { id: "people", label: rows.people, ...values.count(result.people) },
    { id: "portions", label: rows.portions, ...values.count(result.judgments) },
    ...gains,
    ...differences,
    ...(seconds === null
      ? []
      : [{ id: "seconds", label: rows.seconds, ...values.seconds(seconds, masses.plannedSeconds) }]),
  ];
}

/** Over all people and products; null where it is not known of all. */
function meanSeconds({ masses }: PortionsResult): number | null {
  const known = masses.panelists.flatMap(({ seconds, portions }) => (seconds === null ? [] : [{ seconds, portions }]));
  const of = known.reduce((all, { portions }) => all + portions, 0);
  if (known.length < masses.panelists.length || of === 0) return null;
  return known.reduce((all, { seconds, portions }) => all + seconds * portions, 0) / of;
}

function partsOf({ masses, study }: PortionsResult, ratios: string[], { portions }: ReportWords): Part[] {
  const [means] = describeChew(masses).tables;
  const { lead, leadOfFile, alone, heading } = portions.persons;
  return [
    ...(means
      ? [
          {
            id: "gains" as const,
            heading: portions.means.heading,
            sentences: [portions.means.lead, ...ratios],
            table: means,
          },
        ]
      : []),
    {
      ...{ id: "gains-by-person", heading, table: personsTable(masses, portions) },
      sentences: [masses.unit === "portion" ? alone : study ? lead : leadOfFile],
    },
  ];
}

/** One line a person, one column a product: how many portions stand behind a mean is said where they are not equally many. */
function personsTable({ panelists, means }: PortionsResult["masses"], { persons }: ReportWords["portions"]): WordTable {
  const products = means.map(({ product }) => product);
  const people = [...new Set(panelists.map(({ panelist }) => panelist))].toSorted((a, b) => seatOf(a) - seatOf(b));
  const even = new Set(panelists.map(({ portions }) => portions)).size <= 1;
  const rows = people.map((person) => {
    const own = panelists.filter(({ panelist }) => panelist === person);
    const seconds = own.map((each) => each.seconds);
    const known = seconds.filter((value) => value !== null);
    return [
      person,
      ...products.map((name) => {
        const found = own.find(({ product }) => product === name);
        return found ? persons.gain(found.gainPercent, even ? null : found.portions) : persons.none;
      }),
      known.length < seconds.length ? persons.none : persons.seconds(known),
    ];
  });
  return { caption: persons.caption, columns: persons.columns(products), rows, note: even ? "" : persons.uneven };
}

const seatOf = (panelist: string): number => Number(/\d+$/.exec(panelist)?.[0] ?? 0);
