import type { Moment, ScaleForm } from "../../model/attribute.ts";
import type { Claim } from "../../model/claim.ts";
import type { Kitchen } from "../../model/kitchen.ts";
import type { Declaration, Plan, Product, Property, Wave } from "../../model/plan.ts";
import type { Asked } from "../../model/plan-question.ts";
import type { Raw } from "../../model/raw.ts";
import { allergenNames } from "./allergens.ts";
import { momentPhrase } from "./moment.ts";
import { listed, plural } from "./organizer.ts";
import { adviceWords } from "./organizer-advice.ts";
import { figure, percent } from "./organizer-figures.ts";
import { formSaid } from "./organizer-form.ts";
import { methodNames } from "./organizer-method.ts";
import { safety } from "./organizer-safety.ts";
import { rawWords } from "./raw.ts";

/** Words for what differs between two versions of a plan, or of the kitchen's defaults: each field by its short name. */

type Attribute = Plan["scale"]["attributes"][number];
type Labels<T, Left extends string = never> = Record<Exclude<keyof T & string, Left>, string>;

const plan: Labels<
  Plan,
  | "asked"
  | "advised"
  | "pace"
  | "serving"
  | "products"
  | "properties"
  | "waves"
  | "declarations"
  | "scale"
  | "ranking"
  | "chew"
> = {
  title: "title",
  invented: "demo",
  copiedFrom: "study it began with",
  blank: "blank study",
  objective: "question",
  ifYes: "if yes",
  ifNo: "if no",
  standsFor: "who the panel stands for",
  panelType: "who sits on the panel",
  method: "method",
  goal: "goal",
  similarity: "limit of likeness",
  alpha: "risk of being fooled by chance",
  discriminatorShareSought: "share to be found",
  dPrimeSought: "distance to be found",
  confidence: "confidence",
  people: "people",
  spares: "spare trays",
  repeats: "trays for each person",
  repeatsIn: "when each has them",
  stopping: "when to stop",
  sides: "which result counts",
  reference: "reference",
  blankNorm: "earlier blank study",
  noPreference: "\u201cno preference\u201d",
  scaleSought: "difference that matters",
  perTray: "products on each tray",
  comparisons: "differences to be judged",
  looks: "look of the samples",
  masking: "masking",
  raw: "which raw material gets which process",
  serverKnowsKey: "who carries the trays knows the key",
  place: "place",
  palette: "screen of the tablets",
  declarationsComplete: "declarations complete",
  cautionsRead: "cautions read",
  cautionsApplying: "cautions",
  carrier: "something is served with the samples",
  carrierWhat: "what is served with the samples",
  limits: "limits of temperature and time",
  uncooked: "nothing has to be cooked through",
  responsible: "who answers for undercooked food",
  served: "what people are told they taste",
  contact: "whom people can turn to",
  avoidCodes: "codes to avoid",
};

const serving: Labels<Plan["serving"]> = {
  portionGrams: "portion (g)",
  servingCelsius: "served at (\u00b0C)",
  vessel: "vessel",
  cleanser: "what clears the palate",
  pauseSeconds: "pause (seconds)",
  swallow: "swallow or spit",
  retaste: "tasting again",
  warmUp: "warm-up",
  warmUpWhat: "warm-up sample",
};
const pace: Labels<Plan["pace"]> = {
  tasteSeconds: "to taste and answer (seconds)",
  serveSeconds: "to bring one tray (seconds)",
  windowFrom: "best from (minutes)",
  windowTo: "best until (minutes)",
  seats: "seats at once",
  mostSamples: "samples a sitting, at most",
};
const ranking: Labels<Plan["ranking"]> = {
  name: "name of the property",
  least: "low end of the order",
  most: "high end of the order",
  definition: "what it means",
  predicted: "order expected",
  liking: "an order of liking",
};
const chew: Labels<Plan["chew"]> = {
  seconds: "seconds of chewing",
  mouth: "mouth before each portion",
  waitSeconds: "waiting before each portion (seconds)",
  rinseGrams: "water rinsed into the cup (g)",
  toleranceGrams: "how far a portion may be off (g)",
  balanceStep: "step of the balance (g)",
  weighWithinSeconds: "weighed within (seconds)",
  control: "inert portion",
  matters: "difference of gains that matters (percentage points)",
  scatter: "how people are supposed to scatter in it",
};
const product: Labels<Product, "id"> = {
  name: "name",
  preparation: "preparation",
  cookLoss: "loss in cooking (% of the raw mass)",
  cookLossFrom: "where that loss comes from",
  trimLoss: "trimmed off (% of what is bought)",
  cookedOver: "cooked beyond what is served (%)",
};
const property: Labels<Property, "id"> = {
  name: "name",
  comparative: "word of the question",
  definition: "what it means",
  expected: "expected to have more",
  inFamily: "counts like the first",
};
const attribute: Labels<Attribute & Kitchen["properties"][number], "id"> = {
  name: "name",
  adjective: "word of the question",
  definition: "what it means",
  form: "form of the scale",
  lowAnchor: "words at the low end",
  highAnchor: "words at the high end",
  moment: "when it is judged",
  further: "further moments",
  inFamily: "counts like the first",
  starts: "new studies begin with it",
};
const wave: Labels<Wave, "id" | "batches"> = { starts: "begins at", people: "people", session: "session" };
const declaration: Labels<Declaration, "of"> = {
  contains: "contains",
  mayContain: "may contain",
  other: "anything else",
  none: "none of the list",
};

const claim: Labels<Claim, "explanations" | "measures"> = {
  title: "title",
  invented: "demo",
  words: "the claim",
  heldBy: "who holds it",
  expected: "what was expected",
  expectedOn: "the day of that",
  first: "what it is held against",
  second: "what the claim is about",
};
const explanation: Labels<Claim["explanations"][number], "id"> = { name: "name", words: "in words" };
const measure: Labels<Claim["measures"][number], "id"> = {
  weighed: "weighed batches",
  kind: "kind",
  about: "what it is about",
  name: "name",
  predictions: "predictions",
  attached: "studies",
  typed: "typed result",
};
/** Fields that hold more than a few words can say. */
const large = new Set(["predictions", "attached", "typed", "limits", "weighed"]);

/** What an entry of a list is called: by its name, or by its place. */
const item = {
  products: (name: string, at: number) => name.trim() || `product ${at + 1}`,
  properties: (name: string, at: number) => name.trim() || `property ${at + 1}`,
  attributes: (name: string, at: number) => name.trim() || `property ${at + 1}`,
  waves: (_name: string, at: number) => `wave ${at + 1}`,
  explanations: (name: string, at: number) => name.trim() || `explanation ${at + 1}`,
  measures: (name: string, at: number) => name.trim() || `measured thing ${at + 1}`,
  declarations: (name: string, _at: number) => `allergens of ${name.trim() || "a product"}`,
};
const field = (of: string, name: string): string => `${of}, ${name}`;
const batches = (wave: string, product: string): string => `${wave}, batches of ${product}`;

/** Values that are names of choices in the code. */
const chosen: Record<string, string> = {
  ...methodNames,
  ...allergenNames,
  ...Object.fromEntries(Object.entries(safety.cautionTexts).map(([caution, { name }]) => [caution, name])),
  colleagues: "people of the house",
  trained: "trained assessors",
  consumers: "recruited consumers",
  similarity: "to show likeness",
  difference: "to show a difference",
  one: "one-sided",
  two: "two-sided",
  "not-offered": "not offered",
  dropped: "offered, dropped before the test",
  split: "offered, split evenly",
  "three-way": "offered, a third share",
  alike: "they look alike",
  masked: "they differ, and it is masked",
  differ: "they differ, and it is not masked",
  day: "light",
  dim: "dark",
  swallow: "swallow",
  spit: "spit out",
  either: "as each likes",
  "one-sitting": "in one sitting",
  sessions: "one in each session",
};
/** Fields whose values are such names; all other texts are what somebody typed. */
const named = new Set(
  "method goal panelType swallow palette looks sides repeatsIn noPreference contains mayContain cautionsRead cautionsApplying".split(
    " ",
  ),
);
const shares = new Set("alpha beta limit confidence discriminatorShareSought".split(" "));

/** A value of a plan as people say it. `nameOf`: a product's name for its id. */
function value(of: unknown, key: string, nameOf: (id: string) => string | undefined): string {
  const within = (part: unknown, inner = key): string => value(part, inner, nameOf);
  if (of === undefined || of === null || of === "" || (Array.isArray(of) && of.length === 0)) return "nothing";
  if (typeof of === "boolean") return of ? "yes" : "no";
  if (typeof of === "number") return shares.has(key) ? percent(of) : figure(of);
  if (typeof of === "string") return nameOf(of) ?? (named.has(key) ? (chosen[of] ?? of) : of);
  if (Array.isArray(of)) return listed(of.map((part) => within(part)));
  if (typeof of !== "object") return "";
  if (key === "raw") return rawWords.said(of as Raw);
  if (key === "form") return formSaid(of as ScaleForm);
  if (key === "moment")
    return momentPhrase(of as Moment, (seconds) => `${plural(seconds, "second", "seconds")} after the first bite`);
  const said = Object.entries(of).filter(([inner, part]) => inner !== "id" && part !== null && part !== "");
  return said.map(([inner, part]) => `${spaced(inner)} ${within(part, inner)}`).join(", ");
}

const nobody = () => undefined;
const spaced = (name: string): string => name.replace(/([A-Z])/g, " $1").toLowerCase();

export const differenceWords = {
  plan: plan as Record<string, string>,
  asked: adviceWords.short as Record<string, string>,
  answer: (question: string, answer: unknown) =>
    typeof answer === "string" ? adviceWords.answerText(question as keyof Asked, answer) : value(answer, "", nobody),
  pace: pace as Record<string, string>,
  serving: serving as Record<string, string>,
  ranking: ranking as Record<string, string>,
  chew: chew as Record<string, string>,
  claim: claim as Record<string, string>,
  large: (key: string) => large.has(key),
  asBefore: "as before",
  changed: "changed",
  lengthMm: "length of the line (mm)",
  lists: {
    products: product as Record<string, string>,
    properties: property as Record<string, string>,
    attributes: attribute as Record<string, string>,
    waves: wave as Record<string, string>,
    declarations: declaration as Record<string, string>,
    explanations: explanation as Record<string, string>,
    measures: measure as Record<string, string>,
  },
  item,
  field,
  batches,
  value,
  there: "is there",
  notThere: "is not there",
  declared: safety.of as Partial<Record<string, string>>,
};
