import { familyOf } from "../analysis/method.ts";
import { usualChew } from "../model/chew-plan.ts";
import { shapeOf, sidesFor } from "../model/method.ts";
import { type OpenPart, planParts } from "../model/open-part.ts";
import { leastForVerdict } from "../model/outcome.ts";
import { emptyRanking, emptyScale, type Plan } from "../model/plan.ts";
import { nothingAsked, usualPace } from "../model/plan-question.ts";
import { isHolding, usualLimits } from "../model/safety-limit.ts";
import { heldOf, ordersOf, partsOf, productBounds } from "./method.ts";
import { leastTraysOfOne, openChew } from "./open-chew.ts";
import { openComparisons } from "./open-comparisons.ts";
import { isRisk, openMethod } from "./open-method.ts";
import { openSafety } from "./open-safety.ts";
import { alike, isBlank } from "./open-text.ts";
import { mayDivide } from "./raw-draw.ts";
import { inEachSession, sessionsOf } from "./seating.ts";
import { seeksLikeness, sizeTest } from "./size-test.ts";

/** A plan of which nothing is decided; the numbers are starting points a lead may change. */
export function emptyPlan(): Plan {
  return {
    title: "",
    invented: false,
    copiedFrom: null,
    blank: false,
    asked: nothingAsked(),
    advised: null,
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
    scaleSought: null,
    perTray: null,
    comparisons: { kind: "all-pairs" },
    ranking: emptyRanking(),
    chew: usualChew(),
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
    raw: { drawn: "unknown" },
    pace: usualPace(),
    serverKnowsKey: null,
    place: "",
    palette: "day",
    declarations: [],
    declarationsComplete: false,
    cautionsRead: [],
    cautionsApplying: ["hygiene", "choking"],
    carrier: null,
    carrierWhat: "",
    limits: usualLimits().filter(isHolding),
    uncooked: false,
    responsible: "",
    served: "",
    contact: "",
    avoidCodes: [],
  };
}

/** Everything a plan still lacks before it can be locked, in the order of its parts; empty when it is ready. */
export function openParts(plan: Plan): OpenPart[] {
  return [openQuestion, openMethod, openPeople, openSamples, openServing, openSafety, openChew]
    .flatMap((open) => open(plan))
    .toSorted((a, b) => planParts.indexOf(a.part) - planParts.indexOf(b.part));
}

function openQuestion(plan: Plan): OpenPart[] {
  const lines = { title: plan.title, objective: plan.objective, "if-yes": plan.ifYes, "if-no": plan.ifNo } as const;
  return (Object.keys(lines) as (keyof typeof lines)[])
    .filter((what) => isBlank(lines[what]))
    .map((what) => ({ part: "question", what }));
}

/** A plan whose result could not count, whatever people answer, asks them for nothing. */
function openPeople(plan: Plan): OpenPart[] {
  const { people, repeats, alpha, similarity } = plan;
  if (!(people >= 1)) return [{ part: "people", what: "people" }];
  const open: OpenPart[] = [];
  if (repeats > 1 && !shapeOf(plan.method).repeats) open.push({ part: "people", what: "repeats" });
  // each round would give a person other products: those are no repeats of a mark
  else if (repeats > 1 && heldOf(plan) !== null) open.push({ part: "people", what: "repeats-in-blocks" });
  // one person alone may stand for themselves, with enough answers; a few stand for nobody
  if (people === 1 && shapeOf(plan.method).answer === "portions") {
    return repeats >= leastTraysOfOne
      ? open
      : [...open, { part: "people", what: "one-chewer", least: leastTraysOfOne }];
  }
  const enough = people === 1 ? repeats >= leastForVerdict && mayBeOne(plan) : people >= leastForVerdict;
  if (!enough) return [...open, { part: "people", what: "too-few-people", people, least: leastForVerdict }];
  if (!isRisk(alpha) || open.length > 0) return open;
  const test = sizeTest(plan);
  if (test === null || test.criticalNumber(people) !== null) return open;
  return [{ part: "people", what: "no-critical-number", people, risk: seeksLikeness(plan) ? similarity.beta : alpha }];
}

/** Is the question one that a single person's answers can settle for that person? Where somebody is right, it is. */
const mayBeOne = (plan: Plan): boolean => familyOf(plan.method, plan.sides) === "choice" && !seeksLikeness(plan);

function openSamples(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  const { products } = plan;
  const { least, most } = productBounds(plan);
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
  open.push(...openRoles(plan));
  if (shapeOf(plan.method).answer === "marks") open.push(...openComparisons(plan));
  if (plan.blank && !oneFood(plan)) open.push({ part: "samples", what: "blank-preparations" });
  const { windowFrom, windowTo } = plan.pace;
  if (windowTo !== null && windowTo <= (windowFrom ?? 0)) open.push({ part: "samples", what: "window" });
  if (plan.looks === null) open.push({ part: "samples", what: "looks" });
  if (plan.looks === "masked" && isBlank(plan.masking)) open.push({ part: "samples", what: "masking" });
  return open;
}

/** Is every product of the plan the same food, prepared alike? A blank study is one. */
const oneFood = ({ products }: Plan): boolean =>
  products.every(({ preparation }) => alike(preparation, products[0]?.preparation ?? ""));

/** Which product plays which part, where the method gives them parts: found where the products are. */
function openRoles(plan: Plan): OpenPart[] {
  const { method, products, reference, properties, sides } = plan;
  const shape = shapeOf(method);
  const named = (id: string | null): boolean => products.some((product) => product.id === id);
  const open: OpenPart[] = [];
  const constant = shape.reference === "A" || (shape.reference === "R" && reference.kind === "constant");
  if (constant && !named(reference.product)) open.push({ part: "samples", what: "reference" });
  if (!shape.property || sidesFor(method, sides) === "two") return open;
  properties.forEach(({ name, expected }, property) => {
    if (!named(expected)) open.push({ part: "samples", what: "expected", property, name });
  });
  // trays that hold the stronger product once, and the other one more often, are made for one product
  const cups = partsOf(ordersOf(plan)[0] ?? "").samples.length;
  const stronger = new Set(properties.map(({ expected }) => expected));
  if (cups > products.length && properties.length > 1 && stronger.size > 1 && !stronger.has(null)) {
    open.push({ part: "samples", what: "one-expected" });
  }
  return open;
}

function openServing(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  if (plan.waves.length === 0) open.push({ part: "serving", what: "waves" });
  else open.push(...openSeats(plan));
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
  if (plan.raw.drawn === "drawn" && plan.raw.divided && !mayDivide(plan))
    open.push({ part: "serving", what: "raw-uneven" });
  if (plan.serverKnowsKey === null) open.push({ part: "serving", what: "server" });
  return open;
}

/** Do the waves seat everybody: once in all, or once in each session? */
function openSeats(plan: Plan): OpenPart[] {
  const seated = (waves: Plan["waves"]): number => waves.reduce((sum, wave) => sum + wave.people, 0);
  const planned = plan.people;
  if (!inEachSession(plan)) {
    const inWaves = seated(plan.waves);
    return inWaves === planned ? [] : [{ part: "serving", what: "people-in-waves", planned, inWaves }];
  }
  const sessions = sessionsOf(plan);
  if (sessions.length !== plan.repeats) {
    return [{ part: "serving", what: "sessions", sessions: sessions.length, repeats: plan.repeats }];
  }
  return sessions.flatMap((session): OpenPart[] => {
    const inWaves = seated(plan.waves.filter((wave) => wave.session.trim() === session));
    return inWaves === planned ? [] : [{ part: "serving", what: "people-in-session", session, planned, inWaves }];
  });
}
