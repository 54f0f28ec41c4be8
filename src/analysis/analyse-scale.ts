import type { Attribute } from "../model/attribute.ts";
import { askedAttributes, inOrderOfMoments, secondsAt } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { type MarkedLine, type ScaleRow, type StudyRecord, servedKey } from "../model/record.ts";
import type { Caveat, ScaleResult } from "../model/result.ts";
import type { AttributeResult, ScaleStatistics } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import { endsOf } from "../model/steps.ts";
import { familySize } from "./attribute-family.ts";
import { caveatsOfStudy, powerToFind } from "./caveats.ts";
import { markedLines, plannedSessions, type Sample } from "./marking.ts";
import { leadingTest } from "./mixed-lead.ts";
import { type ScaleAttribute, type ScaleInput, type ScaleValue, scaleStatistics } from "./scale.ts";
import { productsPower, scaleTestOf, verdictSteps } from "./scale-power.ts";
import { caveatsOfLead, termsOfFile, termsOfPlan } from "./scale-terms.ts";
import { linePoints, markValue } from "./steps.ts";
import { caveatsOfLiking, caveatsOfSteps, tellsLiking } from "./steps-caveats.ts";
import { studyPart } from "./study-part.ts";

/** As `analyse`, for a line scale. Marks of one seat on several trays are repeats of one person. */
export function analyseScale(record: StudyRecord, app: string): ScaleResult {
  const { plan } = record;
  const marked = markedLines(record).toSorted((one, other) => one.seat - other.seat);
  const statistics = scaleStatistics(inputOf(record, marked));
  const orders = ordersServed(record, marked);
  const served = servedTrays(record, marked);
  const answered = new Set(marked.flatMap(({ seat, mark }) => (mark?.fraction == null ? [] : [seat]))).size;
  const belowPlan: Caveat | null =
    answered < plan.people ? { what: "people-below-plan", planned: plan.people, answered } : null;
  return {
    v: 1,
    app,
    study: studyPart(record, served, app),
    ...statistics,
    orders,
    caveats: [
      ...caveatsOfStudy(
        record,
        served,
        belowPlan,
        orders.map(({ judgments }) => judgments),
      ),
      ...traysBelowPlan(plan, marked),
      ...caveatsOfMarks(marked),
      ...caveatsOfScale(statistics, plan.standsFor),
      ...caveatsOfLiking(plan, tellsLiking(statistics)),
      ...caveatOfPower(plan),
      ...caveatsOfLead(statistics.attributes, true),
    ],
    departures: record.departures,
  };
}

function inputOf(record: StudyRecord, marked: readonly MarkedLine[]): ScaleInput {
  const { plan, keyMatches } = record;
  const sessions = plannedSessions(record);
  const asked = askedAttributes(plan.scale.attributes);
  const order = asked.map(({ id }) => id);
  const forms = new Map(asked.map(({ id, form }) => [id, form]));
  // further moments of a property are questions of their own, and exploratory; a just-right scale has no test to share risk
  const family = new Set(
    plan.scale.attributes.flatMap(({ id, inFamily, form }, at) =>
      at === 0 || (inFamily && form.kind !== "just-right") ? [id] : [],
    ),
  );
  return {
    alpha: plan.alpha,
    products: plan.products.map(({ id, name }) => ({ id, name })),
    attributes: asked.map(({ id, name, moment, lowAnchor, highAnchor, form }) => ({
      attribute: name,
      moment,
      momentText: "",
      ...anchorsOf(endsOf({ form, lowAnchor, highAnchor })),
      form,
      inFamily: family.has(id),
    })),
    curves: curvesOf(plan.scale.attributes, order),
    values: marked.map(({ attribute, seat, tray, wave, code, product, batch, mark, place }) => ({
      attribute: order.indexOf(attribute),
      panelist: `seat ${seat}`,
      product,
      value: markValue(mark, forms.get(attribute) ?? { kind: "line" }),
      place,
      session: String(sessions.names.indexOf(sessions.of({ wave })) + 1),
      batch,
      chew: `${tray} ${code}`,
    })),
    terms: termsOfPlan(record, sessions.names),
    comparisons: plan.comparisons,
    perTray: plan.perTray,
    scale: { low: 0, high: linePoints, lengthMm: plan.scale.lengthMm },
    keyMatches,
  };
}

const anchorsOf = ({ low, high }: { low: string; high: string }) => ({ lowAnchor: low, highAnchor: high });

/** Properties with several moments, each by the places of its questions in the order of the chew. */
const curvesOf = (attributes: readonly Attribute[], order: readonly string[]): ScaleInput["curves"] =>
  attributes
    // the mean of a just-right scale says nothing, so neither does how it goes on
    .filter(({ further, form }) => further.length > 0 && form.kind !== "just-right")
    .map((attribute) => {
      const moments = inOrderOfMoments(askedAttributes([attribute]));
      return {
        attribute: attribute.name,
        moments: moments.map(({ id, moment }) => ({ at: order.indexOf(id), seconds: secondsAt(moment) })),
      };
    });

/** Trays with a mark, with what was on them. */
function servedTrays(record: StudyRecord, marked: readonly MarkedLine[]): { tray: number; samples: Sample[] }[] {
  const counted = new Set(marked.map(({ tray }) => tray));
  return servedKey(record).filter(({ tray }) => counted.has(tray));
}

/** How many counted trays each order has, of the orders that the planned trays have. */
function ordersServed({ opened, packet }: StudyRecord, marked: readonly MarkedLine[]): ScaleResult["orders"] {
  const spares = new Set(packet.trays.filter(({ spare }) => spare).map(({ tray }) => tray));
  const planned = opened.key.trays.filter(({ tray }) => !spares.has(tray)).map(({ order }) => order);
  const trays = new Map(marked.map(({ tray, order }) => [tray, order]));
  return [...new Set([...planned, ...trays.values()])].sort().map((order) => ({
    order,
    judgments: [...trays.values()].filter((served) => served === order).length,
    correct: null,
  }));
}

/** With several trays a person a missing one leaves the person in the test, on fewer marks. */
function traysBelowPlan({ people, repeats }: Plan, marked: readonly MarkedLine[]): Caveat[] {
  if (repeats === 1) return [];
  const trays = new Set(marked.flatMap(({ tray, mark }) => (mark === null || mark.fraction === null ? [] : [tray])))
    .size;
  return trays < people * repeats ? [{ what: "trays-below-plan", planned: people * repeats, marked: trays }] : [];
}

/** How the marks were made: kinds of pointer and lengths of the line. Half a millimeter is what a screen can be off. */
function caveatsOfMarks(marked: readonly MarkedLine[]): Caveat[] {
  const made = marked.flatMap(({ mark }) => (mark !== null && mark.fraction !== null ? [mark] : []));
  const pointers = [...new Set(made.map(({ pointer }) => pointer))].sort();
  const lengthsMm = [
    ...new Set(made.flatMap(({ lengthMm }) => (lengthMm === null ? [] : [Math.round(lengthMm)]))),
  ].sort((a, b) => a - b);
  const list: Caveat[] = [];
  if (pointers.length > 1) list.push({ what: "device-kinds-mixed", pointers });
  const [least = 0, most = 0] = [lengthsMm[0], lengthsMm.at(-1)];
  // one step is what rounding makes of screens that agree
  if (most - least > 1) list.push({ what: "lengths-mixed", lengthsMm });
  return list;
}

/** Caveats that follow from the statistics alone. */
function caveatsOfScale(statistics: ScaleStatistics, standsFor: string): Caveat[] {
  const { attributes, outcome, people, judgments } = statistics;
  const [first] = attributes;
  const list: Caveat[] = [];
  const widest = first && outcome === "not-reached" ? widestDifference(first) : null;
  if (first && widest !== null) {
    list.push({ what: "widest-difference", attribute: first.attribute, points: widest, unit: unitOf(first.form) });
  }
  if (people === 1) list.push({ what: "one-person", judgments });
  else list.push({ what: "this-panel-only", standsFor });
  if (first && people > 1 && first.repeats > 1) {
    const tested = leadingTest(first) !== null;
    list.push({ what: "repeats-averaged", people: tested ? first.people : people, judgments: first.judgments, tested });
  }
  const counting = familySize(attributes);
  // a just-right scale has no p that could be small by chance
  const exploratory = attributes.filter(({ inFamily, form }) => !inFamily && form.kind !== "just-right").length;
  if (exploratory > 0) list.push({ what: "further-attributes", attributes: exploratory, counting });
  return [...list, ...caveatsOfSteps(statistics), ...incompleteOf(attributes)];
}

/** The verdict is that of the test of all products, so its power counts. Nothing is said where the plan supposed nothing. */
function caveatOfPower(plan: Plan): Caveat[] {
  const test = scaleTestOf(plan);
  if (test === null || plan.people < 1) return [];
  const power = productsPower(test, plan.people);
  if (power >= powerToFind) return [];
  const { difference, deviation } = test;
  return [{ what: "scale-plan-could-not-find", points: difference, deviation, power, steps: verdictSteps(plan) }];
}

/** Who left something out, one caveat for each property whatever its moments. */
function incompleteOf(attributes: readonly AttributeResult[]): Caveat[] {
  const missing = new Map<string, Set<string>>();
  for (const { attribute, incomplete, outcome } of attributes) {
    if (incomplete.length === 0 || outcome === "no-marks") continue;
    const panelists = missing.get(attribute) ?? new Set();
    for (const { panelist } of incomplete) panelists.add(panelist);
    missing.set(attribute, panelists);
  }
  return [...missing].map(([attribute, panelists]) => ({
    what: "incomplete-panelists",
    attribute,
    panelists: [...panelists],
  }));
}

/** The largest difference, either way, that the intervals of the pairs still allow. */
const widestDifference = ({ contrasts }: AttributeResult): number | null =>
  contrasts.length === 0
    ? null
    : Math.max(
        ...contrasts.flatMap(({ lowTogether, highTogether }) => [Math.abs(lowTogether), Math.abs(highTogether)]),
      );

/**
 * The result of values of a scale that came without a study.
 *
 * Takes    rows: products, attributes and moments are named in them, in the order they first appear; each attribute at each
 *          moment is one of its own, and the first is the one the question is about. A product counts as compared in every
 *          attribute, also where it has no value
 * Throws   what `scaleStatistics` throws
 */
export function resultOfScaleRows(alpha: number, rows: readonly ScaleRow[], app: string): ScaleResult {
  const names = rows.map(({ attribute, moment }) => JSON.stringify([attribute, moment]));
  const distinct = [...new Set(names)];
  const at = new Map(distinct.map((name, index) => [name, index]));
  const attributes = distinct.map((name, place): ScaleAttribute => {
    const { attribute = "", moment = "", form = { kind: "line" } } = rows[names.indexOf(name)] ?? {};
    return {
      attribute,
      moment: null,
      momentText: moment,
      ...anchorsOf(endsOf({ form, lowAnchor: "", highAnchor: "" })),
      form,
      inFamily: place === 0,
    };
  });
  const values = rows.map(({ panelist, product, repeat, value, ...served }, index): ScaleValue => {
    const attribute = at.get(names[index] ?? "") ?? 0;
    const { place = null, session = "", batch = "" } = served;
    return { attribute, panelist, product, value, place, session, batch, chew: `${session} ${repeat}` };
  });
  const products = [...new Set(rows.map(({ product }) => product))].map((name) => ({ id: name, name }));
  // in which order moments come, and how far apart, no such file says
  const statistics = scaleStatistics({
    alpha,
    products,
    attributes,
    values,
    curves: [],
    comparisons: { kind: "all-pairs" },
    terms: termsOfFile(values),
    perTray: null,
    scale: null,
    keyMatches: true,
  });
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    orders: [],
    caveats: [...caveatsOfScale(statistics, ""), ...caveatsOfLead(statistics.attributes, false)],
    departures: [],
  };
}
