import { criticalNumber, lowerTail } from "../analysis/binomial.ts";
import { leastForVerdict } from "../analysis/choice.ts";
import { choiceMethod, rightShareOf } from "../analysis/method.ts";
import { twoSidedCriticalNumber } from "../analysis/two-sided.ts";
import type { OpenPart } from "../model/open-part.ts";
import { type Attribute, type Caution, cautions, type Declaration, emptyScale, type Plan } from "../model/plan.ts";
import { productBounds } from "./method.ts";

/** A plan of which nothing is decided; the numbers are starting points a lead may change. */
export function emptyPlan(): Plan {
  return {
    title: "",
    invented: false,
    copiedFrom: null,
    objective: "",
    ifYes: "",
    ifNo: "",
    standsFor: "",
    panelType: "colleagues",
    method: "triangle",
    goal: "difference",
    similarity: { limit: 0.3, dPrime: null, beta: 0.05 },
    alpha: 0.05,
    discriminatorShareSought: 0.3,
    dPrimeSought: null,
    confidence: 0.95,
    people: 24,
    spares: 3,
    repeats: 1,
    repeatsIn: "one-sitting",
    stopping: { rule: "fixed" },
    properties: [],
    sides: "one",
    reference: { kind: "balanced", product: null },
    blankNorm: null,
    noPreference: "not-offered",
    scale: emptyScale(),
    products: [],
    looks: null,
    masking: "",
    waves: [],
    serving: {
      portionGrams: null,
      servingCelsius: null,
      vessel: "",
      cleanser: "",
      pauseSeconds: 30,
      swallow: "swallow",
      retaste: true,
      warmUp: false,
      warmUpWhat: "",
    },
    serverKnowsKey: null,
    place: "",
    palette: "day",
    declarations: [],
    declarationsComplete: false,
    cautionsRead: [],
    cautionsApplying: ["hygiene", "choking"],
    avoidCodes: [],
  };
}

/** Cautions of a plan, in fixed order: those the lead named, and hygiene and choking, which every tasting has. */
export function applyingCautions(plan: Plan): Caution[] {
  const applying = new Set<Caution>(["hygiene", "choking", ...plan.cautionsApplying]);
  return cautions.filter((caution) => applying.has(caution));
}

/**
 * What needs an allergen declaration: each product (by id), and the warm-up and the cleanser if there are any.
 * A carrier is declared where there is one; the plan does not say whether there is.
 */
export function toDeclare(plan: Plan): string[] {
  return [
    ...plan.products.map((product) => product.id),
    ...(plan.serving.warmUp ? ["warm-up"] : []),
    ...(isBlank(plan.serving.cleanser) ? [] : ["cleanser"]),
  ];
}

/** Everything a plan still lacks before it can be locked, in the order of its parts; empty when it is ready. */
export function openParts(plan: Plan): OpenPart[] {
  return [openQuestion, openMethod, openPeople, openSamples, openServing, openSafety].flatMap((open) => open(plan));
}

function openQuestion(plan: Plan): OpenPart[] {
  const lines = { title: plan.title, objective: plan.objective, "if-yes": plan.ifYes, "if-no": plan.ifNo } as const;
  return (Object.keys(lines) as (keyof typeof lines)[])
    .filter((what) => isBlank(lines[what]))
    .map((what) => ({ part: "question", what }));
}

function openMethod(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  if (!isRisk(plan.alpha)) open.push({ part: "method", what: "alpha" });
  if (plan.goal === "similarity" && plan.method !== "triangle") open.push({ part: "method", what: "goal" });
  const sought = plan.discriminatorShareSought;
  if (plan.method === "line-scale") open.push(...openScale(plan.scale.attributes));
  else if (!(sought > 0 && sought <= 1)) open.push({ part: "method", what: "share-sought" });
  return open;
}

function openScale(attributes: readonly Attribute[]): OpenPart[] {
  if (attributes.length === 0) return [{ part: "method", what: "attributes" }];
  const open: OpenPart[] = [];
  attributes.forEach(({ name, adjective, definition, lowAnchor, highAnchor }, attribute) => {
    const lines = { name, adjective, definition, "low-anchor": lowAnchor, "high-anchor": highAnchor } as const;
    for (const field of Object.keys(lines) as (keyof typeof lines)[]) {
      if (isBlank(lines[field])) open.push({ part: "method", what: "attribute-field", attribute, name, field });
    }
    if (attributes.slice(0, attribute).some((other) => sameQuestion(other, attributes[attribute]))) {
      open.push({ part: "method", what: "same-attribute", attribute, name });
    }
    if (!isBlank(lowAnchor) && alike(lowAnchor, highAnchor)) {
      open.push({ part: "method", what: "same-anchors", attribute, name });
    }
  });
  return open;
}

const alike = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

/** One property at one moment, asked twice. */
const sameQuestion = (one: Attribute, other: Attribute | undefined): boolean =>
  other !== undefined &&
  !isBlank(one.name) &&
  alike(one.name, other.name) &&
  JSON.stringify(one.moment) === JSON.stringify(other.moment);

const isRisk = (alpha: number): boolean => alpha > 0 && alpha <= 0.5;

/** A plan whose result could not count, whatever people answer, asks them for nothing. */
function openPeople(plan: Plan): OpenPart[] {
  const { people, alpha, similarity } = plan;
  if (!(people >= 1)) return [{ part: "people", what: "people" }];
  if (people < leastForVerdict) return [{ part: "people", what: "too-few-people", people, least: leastForVerdict }];
  if (!isRisk(alpha) || canReach(plan)) return [];
  const risk = plan.goal === "similarity" ? similarity.beta : alpha;
  return [{ part: "people", what: "no-critical-number", people, risk }];
}

/** Is there a count of answers that the rule would accept? */
function canReach({ method, goal, people, alpha, similarity }: Plan): boolean {
  if (method === "line-scale") return true;
  if (method === "paired-preference") return twoSidedCriticalNumber(people, alpha) !== null;
  if (goal === "similarity") return lowerTail(0, people, rightShareOf(method, similarity.limit)) <= similarity.beta;
  return criticalNumber(people, choiceMethod(method).guessProbability, alpha) !== null;
}

function openSamples(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  const { products } = plan;
  const { least, most } = productBounds(plan.method);
  if (products.length < least || products.length > most) {
    open.push({ part: "samples", what: "products", count: products.length, least, most });
  }
  products.forEach(({ name, preparation }, product) => {
    if (isBlank(name)) open.push({ part: "samples", what: "product-name", product, name });
    if (isBlank(preparation)) open.push({ part: "samples", what: "product-preparation", product, name });
  });
  products.forEach(({ name }, product) => {
    if (!isBlank(name) && products.slice(0, product).some((other) => alike(other.name, name))) {
      open.push({ part: "samples", what: "same-name", product, name: name.trim() });
    }
  });
  if (plan.looks === null) open.push({ part: "samples", what: "looks" });
  if (plan.looks === "masked" && isBlank(plan.masking)) open.push({ part: "samples", what: "masking" });
  return open;
}

function openServing(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  const inWaves = plan.waves.reduce((sum, wave) => sum + wave.people, 0);
  if (plan.waves.length === 0) open.push({ part: "serving", what: "waves" });
  else if (inWaves !== plan.people) {
    open.push({ part: "serving", what: "people-in-waves", planned: plan.people, inWaves });
  }
  plan.waves.forEach((wave, at) => {
    if (isBlank(wave.starts)) open.push({ part: "serving", what: "wave-start", wave: at });
    if (wave.people < 1 && plan.people >= 1) open.push({ part: "serving", what: "wave-people", wave: at });
    plan.products.forEach(({ id, name }, product) => {
      const batches = wave.batches[id] ?? [];
      if (batches.length === 0 || batches.some(isBlank)) {
        open.push({ part: "serving", what: "batch", wave: at, product, name });
      }
    });
  });
  if (plan.serving.warmUp && isBlank(plan.serving.warmUpWhat)) open.push({ part: "serving", what: "warm-up" });
  if (plan.serverKnowsKey === null) open.push({ part: "serving", what: "server" });
  return open;
}

function openSafety(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  const declared = new Set(plan.declarations.filter(saysSomething).map((declaration) => declaration.of));
  for (const of of toDeclare(plan)) {
    if (declared.has(of)) continue;
    const at = plan.products.findIndex(({ id }) => id === of);
    const name = plan.products[at]?.name ?? "";
    open.push({ part: "safety", what: "declaration", of, product: at < 0 ? null : at, name });
  }
  if (!plan.declarationsComplete) open.push({ part: "safety", what: "declarations-complete" });
  for (const caution of applyingCautions(plan)) {
    if (!plan.cautionsRead.includes(caution)) open.push({ part: "safety", what: "caution", caution });
  }
  return open;
}

const saysSomething = ({ contains, mayContain, other, none }: Declaration): boolean =>
  none || contains.length > 0 || mayContain.length > 0 || !isBlank(other);

const isBlank = (text: string): boolean => text.trim() === "";
