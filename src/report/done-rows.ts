import { portionTestOf } from "../analysis/portion-power.ts";
import { pairPower, productsPower, scaleTestOf } from "../analysis/scale-power.ts";
import type { AskedAttribute } from "../model/attribute.ts";
import { shapeOf } from "../model/method.ts";
import { askedAttributes } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import type { StudyRecord } from "../model/record.ts";
import type { PortionsResult, RankResult, Result } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { drawsLine } from "../model/steps.ts";
import { adviceRecord } from "../words/en/advice-record.ts";
import { choiceQuestions } from "../words/en/panel-choice.ts";
import { panelLine } from "../words/en/panel-line.ts";
import { rawWords } from "../words/en/raw.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import type { Occasion } from "./occasion.ts";
import { measuredLines } from "./temperature-table.ts";

const words = reader.done;
/** One item of the test report; no lines means that nobody recorded it. */
export type DoneRow = { label: string; lines: string[] };

/** What a report of a sensory test tells about how it was done, filled from the log. */
export function doneRows(record: StudyRecord, result: Result, occasion: Occasion): DoneRow[] {
  return [
    { label: words.purpose, lines: given(record.plan.objective) },
    ...copiedRow(record),
    ...adviceRow(record),
    ...productRows(record, result),
    ...servingRows(record),
    ...panelRows(record, result),
    ...ballotRows(record, result),
    ...designRows(record, result),
    ...occasionRows(record, occasion),
  ];
}

/** A changed plan after a lock is a study of its own, which names the one it began with. */
const copiedRow = ({ plan: { copiedFrom } }: StudyRecord): DoneRow[] =>
  copiedFrom ? [{ label: words.copied, lines: [words.copiedFrom(copiedFrom.title)] }] : [];

/** What the planner advised, and whether the lead took it; nothing where nobody asked it. */
const adviceRow = ({ plan }: StudyRecord): DoneRow[] =>
  plan.advised ? [{ label: words.advice, lines: [adviceRecord(report.methods, plan, plan.advised)] }] : [];

function productRows({ plan }: StudyRecord, { study }: Result): DoneRow[] {
  const products = (study?.products ?? []).map(({ name, preparation, batches }) => ({
    label: name,
    lines: given(preparation, batches.length > 0 ? words.batches(batches) : words.noBatches),
  }));
  const looks = plan.looks === null ? "" : words.looksAre[plan.looks];
  return [
    ...products,
    { label: words.origin, lines: [] },
    { label: rawWords.record.label, lines: rawLines(plan) },
    { label: words.looks, lines: given(looks, plan.looks === "masked" ? plan.masking : "") },
  ];
}

/** Drawn, not drawn; nothing where nobody said. */
function rawLines({ raw }: Plan): string[] {
  if (raw.drawn === "unknown") return [];
  return [raw.drawn === "drawn" ? rawWords.record.drawn(raw) : rawWords.record.notDrawn];
}

function servingRows({ plan: { serving, pace }, packet, temperatures }: StudyRecord): DoneRow[] {
  const { portionGrams, servingCelsius, vessel, cleanser, pauseSeconds, warmUp, warmUpWhat } = serving;
  // as the tablets said it: what is chewed to be weighed is spat out, whatever else the plan allows
  const { swallow, retaste } = packet;
  const samples = packet.trays[0]?.codes.length ?? 0;
  return [
    { label: words.portion, lines: portionGrams === null ? [] : [words.grams(portionGrams)] },
    { label: words.servedAt, lines: servingCelsius === null ? [] : [words.celsius(servingCelsius)] },
    { label: words.measured, lines: measuredLines(temperatures) },
    ...(pace.windowTo === null
      ? []
      : [{ label: words.window, lines: [words.windowIs(pace.windowFrom ?? 0, pace.windowTo)] }]),
    { label: words.vessel, lines: given(vessel) },
    { label: words.serving, lines: samples === 0 ? [] : [words.together(samples)] },
    { label: words.between, lines: given(cleanser, words.pause(pauseSeconds)) },
    { label: words.warmUp, lines: [warmUp ? warmUpWhat.trim() || words.yes : words.none] },
    { label: words.tasting, lines: [words.swallow[swallow], words.retaste(retaste)] },
  ];
}

function panelRows({ plan, judgments }: StudyRecord, result: Result): DoneRow[] {
  const counted =
    result.family === "scale"
      ? words.panelMarked(plan.people, result.people, result.judgments)
      : result.family === "portions"
        ? words.chewed.panel(plan.people, result.people, result.judgments)
        : words.panelIs(plan.people, judgments.length);
  const recruited: DoneRow[] = plan.method === "paired-preference" ? [{ label: words.quotas, lines: [] }] : [];
  return [
    {
      label: words.panel,
      lines: given(counted, words.panelTypes[plan.panelType], plan.standsFor && words.standsFor(plan.standsFor)),
    },
    ...recruited,
    { label: words.experience, lines: [] },
    { label: words.rule, lines: ruleLines(plan, result) },
  ];
}

function ruleLines(plan: StudyRecord["plan"], result: Result): string[] {
  const risk = words.riskIs(plan.alpha);
  if (result.family === "scale" || plan.method === "line-scale") return [risk, ...scaleSought(plan), words.twoSided];
  if (plan.goal === "similarity") {
    const { limit, dPrime, beta } = plan.similarity;
    return [dPrime === null ? words.limitIs(limit, beta) : words.limitDistance(dPrime, beta)];
  }
  if (result.family === "portions") return [risk, ...portionsSought(plan), words.chewed.noDirection];
  if (result.family === "rank")
    return [risk, result.predicted.length > 0 ? words.orderExpected(result.predicted) : words.twoSided];
  const beta = result.power ? words.beta(result.power.power) : "";
  const either = result.family === "pair" ? words.twoSided : "";
  return given(risk, soughtOf(plan, result), beta, either);
}

/** What the number of people was held against, as far as the plan said so. */
function scaleSought(plan: StudyRecord["plan"]): string[] {
  const test = scaleTestOf(plan);
  if (test === null || plan.people < 1) return [];
  const sought = words.sought.points(test.difference, test.deviation, plan.scaleSought?.from ?? "");
  const seen = plan.scaleSought?.seenDeviation ?? null;
  const part = plan.repeats > 1 ? [words.sought.seen(seen)] : [];
  return [sought, ...part, words.beta(productsPower(test, plan.people))];
}

/** The same of chewed portions: each product against the first. */
function portionsSought(plan: StudyRecord["plan"]): string[] {
  const test = portionTestOf(plan);
  const sought = words.chewed.sought(plan.chew.matters);
  if (test === null || plan.chew.scatter === null || plan.people < 2) return [sought];
  return [sought, words.chewed.scatter(plan.chew.scatter), words.beta(pairPower(test, plan.people))];
}

function soughtOf(plan: StudyRecord["plan"], { family }: Result): string {
  if (plan.dPrimeSought !== null) return words.sought.distance(plan.dPrimeSought);
  if (family === "kinds") return "";
  if (family === "choice") return words.sought.choice(plan.discriminatorShareSought);
  const sought = plan.method === "paired-preference" ? words.sought.pair : words.sought.either;
  return sought(plan.discriminatorShareSought);
}

function ballotRows({ plan, packet }: StudyRecord, result: Result): DoneRow[] {
  const asked = choiceQuestions(packet.wording, packet.properties, packet.ranking).join(" ");
  const rows: DoneRow[] = [
    {
      label: words.ballot,
      lines: given(asked && words.asked(asked), words.ballotIs(packet.wording, packet.palette)),
    },
    { label: words.instructions, lines: [words.informed] },
  ];
  if (result.family === "choice") {
    const { guesses } = result;
    rows.push({ label: words.guesses, lines: guesses ? [words.guessesAre(guesses.ticked, guesses.right)] : [] });
  }
  if (plan.method === "paired-preference") {
    rows.push({ label: words.noneRule, lines: [words.noneRules[plan.noPreference]] });
  }
  return rows;
}

function scaleLines(asked: readonly AskedAttribute[], { scale }: Plan): string[] {
  const stepped = asked.some(({ form }) => form.kind !== "line");
  return [...(drawsLine(asked) ? [words.scaleIs(scale.lengthMm)] : []), ...(stepped ? [words.stepsAre] : [])];
}

function designRows({ plan, packet, weighings }: StudyRecord, result: Result): DoneRow[] {
  if (result.family === "rank") return rankDesign(plan, result);
  if (result.family === "portions") return portionsDesign(plan, result, weighings);
  if (result.family !== "scale") return choiceDesign(plan, result);
  const asked = packet.line?.attributes ?? askedAttributes(plan.scale.attributes);
  const attributes = asked.map((attribute) => ({
    label: words.attribute(attribute.name, reader.scale.moment(attribute.moment)),
    lines: [
      words.asked(panelLine.mark.ask(attribute, "\u2026", plan.serving.swallow).join("")),
      attribute.form.kind === "line"
        ? words.ends(attribute.lowAnchor, attribute.highAnchor)
        : words.steps(attribute.form.labels),
      attribute.definition.trim() || words.undefinedHere,
    ],
  }));
  const repeats = Math.max(0, ...result.attributes.map((attribute) => attribute.repeats));
  return [
    { label: words.scale, lines: scaleLines(asked, plan) },
    ...attributes,
    { label: words.design, lines: [words.williams(result.orders.length, result.products.length)] },
    {
      label: words.repeats,
      lines: given(
        plan.repeats > 1 ? words.repeatsOf(plan.people, plan.repeats, plan.repeatsIn) : "",
        words.repeatsAre(repeats, result.attributes[0]?.leads === "mixed"),
      ),
    },
    ...sessionRows(plan),
    { label: words.model, lines: [modelOf(result.attributes[0]), words.missingIs] },
  ];
}

/** What the verdict rests on. */
const modelOf = (first: AttributeResult | undefined): string =>
  first?.leads === "mixed" && first.mixed
    ? words.modelIs.mixed([
        ...first.mixed.terms.map(({ term }) => term),
        ...(first.mixed.batches === null ? [] : (["batch"] as const)),
      ])
    : words.modelIs.blocks(first?.blocks?.balanced ?? true);

function rankDesign({ ranking: { name, definition } }: StudyRecord["plan"], result: RankResult): DoneRow[] {
  return [
    { label: words.ranked(name), lines: [definition.trim() || words.undefinedHere] },
    { label: words.design, lines: [words.williams(result.orders.length, result.products.length)] },
    { label: words.model, lines: [words.rankModel] },
  ];
}

/** How portions were chewed and weighed, and what is inert among them. */
function portionsDesign(plan: Plan, result: PortionsResult, weighings: StudyRecord["weighings"]): DoneRow[] {
  const closed = weighings.filter(({ after }) => after.length > 0);
  const timed = closed.filter(({ waitedSeconds }) => waitedSeconds !== null).length;
  const { chew, products } = plan;
  const control = products.find(({ id }) => id === chew.control)?.name ?? null;
  return [
    { label: words.chewed.chewing, lines: words.chewed.chewingIs(chew) },
    { label: words.chewed.weighing, lines: words.chewed.weighingIs(chew, { timed, weighed: closed.length }) },
    { label: words.chewed.control, lines: [control === null ? words.none : control] },
    { label: words.design, lines: [words.williams(result.orders.length, products.length)] },
    { label: words.repeats, lines: [words.repeatsOf(plan.people, plan.repeats, plan.repeatsIn)] },
    ...sessionRows(plan),
    { label: words.model, lines: [words.chewed.model[result.masses.unit]] },
  ];
}

/** Orders, reference, repeats, sessions, the rule for stopping: what sets one choice study apart from another. */
function choiceDesign(
  plan: StudyRecord["plan"],
  result: Exclude<Result, { family: "scale" | "rank" | "portions" }>,
): DoneRow[] {
  const orders = result.orders.map(({ order }) => order);
  const rows: DoneRow[] = [
    { label: words.design, lines: orders.length > 0 ? [words.orders(orders, plan.repeats)] : [] },
  ];
  if (shapeOf(plan.method).reference !== null) {
    const name = plan.products.find(({ id }) => id === plan.reference.product)?.name ?? "";
    const isA = plan.method === "a-not-a";
    const lines = isA ? words.referenceA(name) : words.references[plan.reference.kind](name);
    rows.push({ label: words.reference, lines: [lines] });
  }
  rows.push({ label: words.repeats, lines: [words.repeatsOf(plan.people, plan.repeats, plan.repeatsIn)] });
  rows.push(...sessionRows(plan));
  if (result.family === "choice" && result.goal === "difference") {
    rows.push({ label: words.stopping, lines: [words.stoppingIs(plan.stopping)] });
  }
  return rows;
}

function sessionRows(plan: Plan): DoneRow[] {
  const sessions = [...new Set(plan.waves.map(({ session }) => session.trim()).filter((name) => name !== ""))];
  return sessions.length > 1 ? [{ label: words.sessions, lines: [words.sessionsAre(sessions)] }] : [];
}

function occasionRows(record: StudyRecord, occasion: Occasion): DoneRow[] {
  const { plan, marks, lockedAt, closedAt, revealedAt } = record;
  const screens = occasion.screens.map(({ widthPx, heightPx }) => words.screen(widthPx, heightPx));
  const onScreen = marks.filter(({ fraction, paper }) => fraction !== null && !paper);
  const pointers = [...new Set(onScreen.map(({ pointer }) => pointer))].sort();
  const { first, last, tablets, onPaper } = occasion;
  return [
    { label: words.place, lines: given(plan.place) },
    { label: words.carried, lines: plan.serverKnowsKey === null ? [] : [words.knew(plan.serverKnowsKey)] },
    {
      label: words.tablets,
      lines: given(
        tablets === 0 ? "" : words.tabletsAre(tablets, screens),
        pointers.length > 0 ? words.pointers(pointers) : "",
        onPaper === 0 ? "" : words.onPaper(onPaper),
      ),
    },
    {
      label: words.when,
      lines: given(
        words.lockedOn(lockedAt),
        first && last ? words.answersFrom(first, last) : "",
        closedAt ? words.closedOn(closedAt) : "",
        words.revealedOn(revealedAt),
      ),
    },
    { label: words.disclosed, lines: [] },
    { label: words.leader, lines: [] },
    { label: words.standard, lines: [] },
  ];
}

const given = (...lines: string[]): string[] => lines.map((line) => line.trim()).filter((line) => line !== "");
