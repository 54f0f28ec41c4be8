import { askedNext } from "../design/advice.ts";
import { consentOf } from "../design/consent.ts";
import { orderPlan } from "../design/order-plan.ts";
import { seeksLikeness } from "../design/size-test.ts";
import { shapeOf, sidesFor } from "../model/method.ts";
import { askedAttributes, inOrderOfMoments } from "../model/moments.ts";
import { planParts } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { allowedBelow } from "../model/undercooked.ts";
import { adviceRecord } from "../words/en/advice-record.ts";
import { adviceWords } from "../words/en/organizer-advice.ts";
import { chewWords } from "../words/en/organizer-chew.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { comparisonWords } from "../words/en/organizer-comparisons.ts";
import { form as formWords } from "../words/en/organizer-form.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { choiceQuestions } from "../words/en/panel-choice.ts";
import { rawWords } from "../words/en/raw.ts";
import { lineQuestion, wordingOf } from "./ballot-words.ts";
import { dealtWords } from "./part-orders.tsx";
import { likingFlag, summaryOf } from "./plan-summary.ts";

/** One thing that locking fixes, as a term and its lines. */
export type LockedFact = { term: string; lines: string[] };

const words = lockWords.lock;
const { locked: lines } = choiceWords;
const { locked: orderLines } = planWords.ranking;

/** All that a lock fixes, as it stands: part by part, the question as it will be asked, and the rules of the method. */
export function lockedFacts(plan: Plan): LockedFact[] {
  const parts = planParts.map((part) => ({ term: planWords.parts[part], lines: [summaryOf(part, plan)] }));
  const asked = { term: words.asked, lines: plan.method === "line-scale" ? lineLines(plan) : choiceLines(plan) };
  return [...parts, ...adviceFacts(plan), asked, ...rules(plan)].filter(({ lines }) =>
    lines.some((line) => line !== ""),
  );
}

/** What the planner asked and advised, and whether the plan goes by it; nothing where nobody asked it. */
function adviceFacts(plan: Plan): LockedFact[] {
  const { asked, advised } = plan;
  if (advised === null) return [];
  const answers = askedNext(plan).map((question) => adviceWords.answered(question, asked[question]));
  return [
    { term: adviceWords.askedTerm, lines: answers },
    { term: adviceWords.recordTerm, lines: [adviceRecord(planWords.method.names, plan, advised)] },
  ];
}

const choiceLines = (plan: Plan): string[] =>
  choiceQuestions(wordingOf(plan.method), shapeOf(plan.method).property ? plan.properties : [], plan.ranking);

/** Each property with its question, its ends and its meaning, in the order in which they are asked. */
const lineLines = (plan: Plan): string[] =>
  inOrderOfMoments(askedAttributes(plan.scale.attributes)).map((attribute) =>
    words.property(
      lineQuestion(attribute, words.anyCode, plan.serving.swallow).join(""),
      attribute.form.kind === "line"
        ? words.ends(attribute.lowAnchor, attribute.highAnchor)
        : formWords.inOneLine(attribute.form.labels),
      attribute.definition,
    ),
  );

/** Which of several questions count for the verdict; nothing where only one is asked. */
function standings({ method, scale: { attributes } }: Plan): LockedFact[] {
  const asked = askedAttributes(attributes).length;
  if (method !== "line-scale" || asked < 2) return [];
  const { counts } = planWords.scale;
  const names = (counting: boolean): string[] =>
    attributes.filter(({ inFamily }, at) => (at === 0 || inFamily) === counting).map(({ name }) => name.trim());
  const [family, looked] = [names(true), names(false)];
  const lines = [
    family.length > 1 ? counts.several(family) : counts.one(family[0] ?? ""),
    ...(looked.length > 0 ? [counts.looked(looked)] : []),
    ...(asked > attributes.length ? [counts.moments] : []),
  ];
  return [{ term: counts.term, lines }];
}

/** What only some choice methods fix: which product plays which part, repeats, when to stop, the level of intervals. */
function roles(plan: Plan): LockedFact[] {
  const { method, products, properties, reference, sides, stopping, repeats, repeatsIn, blankNorm, confidence } = plan;
  const shape = shapeOf(method);
  const named = (id: string | null): string => products.find((product) => product.id === id)?.name.trim() ?? "";
  const twoSided = sidesFor(method, sides) === "two";
  const always = shape.reference === "A" || reference.kind === "constant" ? named(reference.product) : null;
  return [
    {
      term: choiceWords.properties,
      lines: shape.property
        ? properties.map(({ name, definition, expected, inFamily }, at) =>
            lines.property(name, definition, twoSided ? null : named(expected), at === 0 || inFamily),
          )
        : [],
    },
    { term: orderLines.term, lines: shape.answer === "order" ? [orderLines.of(plan)] : [] },
    { term: orderLines.predicted, lines: shape.answer === "order" ? [orderLines.order(plan)] : [] },
    {
      term: chewWords.heading,
      lines: shape.answer === "portions" ? chewWords.locked(plan.chew, named(plan.chew.control)) : [],
    },
    { term: lines.reference, lines: shape.reference ? [lines.referenceOf(shape.reference, always)] : [] },
    { term: choiceWords.repeats, lines: repeats > 1 ? [lines.repeatsOf(repeats, repeatsIn)] : [] },
    { term: choiceWords.stopping, lines: stopping.rule === "fixed" ? [] : [lines.stoppingOf(stopping)] },
    { term: choiceWords.norm, lines: blankNorm ? [lines.normOf(blankNorm)] : [] },
    {
      term: choiceWords.confidence,
      lines: ["marks", "order", "portions"].includes(shape.answer) ? [] : [choiceWords.otherConfidence(confidence)],
    },
  ];
}

function rules(plan: Plan): LockedFact[] {
  const { method, products, people, panelType, standsFor } = plan;
  const orders = orderPlan(plan, people * plan.repeats);
  const { noPreference, panelTypes } = planWords.method;
  return [
    ...(method === "paired-preference"
      ? [
          {
            term: words.none,
            lines: [`${noPreference[plan.noPreference].label}. ${noPreference[plan.noPreference].hint}`],
          },
        ]
      : []),
    ...standings(plan),
    ...roles(plan),
    ...(seeksLikeness(plan) ? [{ term: words.rule, lines: [words.likeness] }] : []),
    {
      term: words.orders,
      lines: orders ? [dealtWords(plan, orders)] : [],
    },
    {
      term: words.panel,
      lines: [words.panelOf(panelTypes[panelType].label, standsFor.trim()), likingFlag(plan)].filter(Boolean),
    },
    {
      term: words.products,
      lines: products.map(({ name, preparation }, at) => words.productOf(at, name, preparation)),
    },
    ...comparisonFacts(plan),
    {
      term: words.batches,
      lines: plan.waves.map(({ batches }, at) =>
        words.batchesOf(
          at + 1,
          products.map(({ id, name }) => `${name.trim()} ${(batches[id] ?? []).join(", ")}`),
        ),
      ),
    },
    ...(plan.raw.drawn === "unknown" ? [] : [{ term: rawWords.record.label, lines: [rawWords.lockLine(plan.raw)] }]),
    { term: words.tasting, lines: [words.tastingOf(plan), words.paceOf(plan)] },
    { term: words.limits, lines: limitLines(plan) },
    { term: words.agreed, lines: plan.contact === "" ? [] : agreedLines(plan) },
    {
      term: words.screen,
      lines: planWords.samples.paletteOptions.filter(({ value }) => value === plan.palette).map(({ label }) => label),
    },
  ];
}

/** What holds of temperature and time. */
function limitLines(plan: Plan): string[] {
  const allowed = allowedBelow(plan);
  return [
    ...plan.limits.map((limit) =>
      limit.kind === "cooking" ? `${limitWords.food(limit.food)}: ${limitWords.text(limit)}` : limitWords.text(limit),
    ),
    ...(plan.uncooked ? [words.uncooked] : []),
    ...(allowed === null ? [] : [words.responsible(allowed)]),
  ];
}

const agreedLines = (plan: Plan): string[] => consentOf(plan).lines.map(({ term, text }) => `${term}: ${text}`);

/** Which differences are judged, where the products leave a choice. */
function comparisonFacts({ method, comparisons, products }: Plan): LockedFact[] {
  const { locked } = comparisonWords;
  if (shapeOf(method).answer !== "marks") return [];
  const nameOf = (id: string | null) => products.find((product) => product.id === id)?.name.trim() ?? "";
  const line = (): string => {
    if (products.length < 3) return locked.two();
    switch (comparisons.kind) {
      case "all-pairs":
        return locked["all-pairs"]();
      case "reference":
        return locked.reference(nameOf(comparisons.product));
      case "planned":
        return locked.planned(comparisons.pairs.map(({ first, second }) => locked.less(nameOf(first), nameOf(second))));
      case "two-factors": {
        const [first, second] = comparisons.factors;
        return locked.factors(first.name.trim(), second.name.trim());
      }
    }
  };
  return [{ term: locked.term, lines: [line()] }];
}
