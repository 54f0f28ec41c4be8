import type { NoPreference, PanelType, Stopping } from "../../model/plan.ts";
import { chosenPercent, nbsp, percent } from "../number.ts";
import { modelText } from "./mixed.ts";
import { clock, day, dayAndTime, listed, number, plural, times } from "./reader-parts.ts";
import { chewed } from "./reader-portions.ts";

/** How the study was done: labels and values of the items of a test report. */

export const done = {
  heading: "How it was done",
  notRecorded: "Not recorded",
  unknown: "not recorded",
  /** Names of the items nobody recorded, as one sentence. */
  blanks: (items: readonly string[]) =>
    items.map((item, at) => (at === 0 ? item : item.charAt(0).toLowerCase() + item.slice(1))).join(", "),
  batches: (batches: readonly string[]) =>
    `${batches.length === 1 ? "Batch" : "Batches"} served: ${batches.join(", ")}`,
  noBatches: "No batch served",
  portion: "Portion",
  grams: (grams: number) => `${number(grams)}${nbsp}g`,
  servedAt: "Serving temperature",
  celsius: (celsius: number) => `${number(celsius)}${nbsp}\u00b0C, as planned`,
  measured: "Temperatures measured",
  window: "Time after the heat",
  windowIs: (from: number, to: number) => `As it should be from ${number(from)} to ${number(to)} minutes, as planned`,
  vessel: "Vessel",
  looks: "Looks",
  looksAre: {
    alike: "Judged alike by looks",
    masked: "Differ by looks, masked",
    differ: "Differ by looks, not masked",
  },
  between: "Between samples",
  pause: (seconds: number) => `${plural(seconds, "second", "seconds")} pause`,
  warmUp: "Warm-up sample",
  yes: "Served",
  none: "None",
  tasting: "Tasting",
  swallow: { swallow: "Samples swallowed", spit: "Samples spat out", either: "Swallowed or spat out, as each chose" },
  retaste: (allowed: boolean) => (allowed ? "Tasting again allowed" : "Tasting again not allowed"),
  purpose: "Purpose",
  advice: "Advice of the planner",
  copied: "Plan",
  copiedFrom: (title: string) => `Began with the plan of “${title.trim()}”.`,
  origin: "Origin and storage of the samples",
  panel: "Panel",
  panelIs: (planned: number, answered: number) =>
    `${plural(planned, "person", "people")} planned, ${plural(answered, "answer", "answers")} counted`,
  panelMarked: (planned: number, people: number, marks: number) =>
    `${plural(planned, "person", "people")} planned, ${plural(people, "person", "people")} with ${plural(marks, "mark", "marks")} counted`,
  standsFor: (whom: string) => `Stands for: ${whom}`,
  panelTypes: {
    colleagues: "People of the house",
    trained: "Trained assessors",
    consumers: "Recruited among people who eat the food",
  } satisfies Record<PanelType, string>,
  experience: "Experience and selection",
  quotas: "Recruitment and quotas",
  rule: "Rule locked beforehand",
  riskIs: (alpha: number) => `Risk of a false alarm (alpha) ${chosenPercent(alpha)}`,
  sought: {
    choice: (share: number) => `To find ${percent(share)} who can tell`,
    either: (share: number) => `To find ${percent((1 + share) / 2)} to ${percent((1 - share) / 2)}, either way`,
    points: (difference: number, deviation: number, from: string) =>
      `To find a difference of ${number(difference)} points, supposing that marks scatter by ${number(deviation)}${from.trim() === "" ? "" : ` (${from.trim()})`}`,
    seen: (points: number | null) =>
      points === null
        ? "It was supposed that people see the products alike, so that repeats average all of that scatter"
        : `Of that scatter ${number(points)} points were supposed to be people who see the products differently`,
    distance: (dPrime: number) => `To find a distance d\u2032 of ${number(dPrime)}`,
    pair: (share: number) =>
      `To find ${percent((1 + share) / 2)} to ${percent((1 - share) / 2)} among those with a preference`,
  },
  limitIs: (limit: number, beta: number) =>
    `To show that fewer than ${chosenPercent(limit)} can tell; risk of saying so wrongly (beta) ${chosenPercent(beta)}`,
  limitDistance: (limit: number, beta: number) =>
    `To show a distance d\u2032 under ${number(limit)}; risk of saying so wrongly (beta) ${chosenPercent(beta)}`,
  beta: (power: number) => `Risk of missing that (beta) ${percent(1 - power)}`,
  twoSided: "Two-sided: a difference in either direction counts",
  guesses: "Guesses ticked",
  guessesAre: (ticked: number, right: number) =>
    ticked === 0 ? "None" : `${plural(ticked, "answer", "answers")}, ${right} of them right; all are counted`,
  noneRule: "\u201cNo preference\u201d",
  noneRules: {
    "not-offered": "Not offered as an answer",
    dropped: "Offered; left out of the test",
    split: "Offered; split evenly between the two before the test, an odd one left out",
    "three-way": "Offered; reported as a third share of everybody asked, the test compares the two among the others",
  } satisfies Record<NoPreference, string>,
  ballot: "Ballot",
  asked: (question: string) => `Asked: \u201c${question}\u201d`,
  instructions: "Information given",
  informed: "Allergens declared and cautions shown before tasting; codes only, no product, no purpose",
  serving: "Serving",
  together: (samples: number) =>
    samples === 1
      ? "One coded sample a tray, tasted after the one marked A"
      : `${plural(samples, "coded sample", "coded samples")} a tray, side by side, tasted from left to right`,
  disclosed: "Was it disclosed afterwards which sample was which",
  scale: "Scale",
  scaleIs: (lengthMm: number) =>
    `A straight line of ${number(lengthMm)}${nbsp}mm without ticks, numbers or a start value; low end at the left; reported from 0 to 100`,
  attribute: (name: string, moment: string) => `Property: ${[name, moment].filter((part) => part !== "").join(", ")}`,
  stepsAre: "Labeled steps, of equal size on the screen, none chosen to begin with; low end at the left or at the top",
  steps: (labels: readonly string[]) =>
    `${labels.length} steps: ${labels.map((label) => (label.trim() === "" ? "(without words)" : `\u201c${label.trim()}\u201d`)).join(", ")}`,
  ends: (low: string, high: string) => `From \u201c${low}\u201d to \u201c${high}\u201d`,
  undefinedHere: "Definition and references not recorded",
  design: "Design",
  williams: (orders: number, products: number) =>
    `Williams design for ${plural(products, "product", "products")}: ${plural(orders, "order", "orders")}, each panelist one of them. Counted below: places and carry-over.`,
  orders: (orders: readonly string[], repeats: number) =>
    `${orders.join(", ")}: equally often as planned, dealt out at random, ${repeats === 1 ? "one" : String(repeats)} a panelist${orders.some((order) => order.includes(":")) ? "; before the colon stands the reference" : ""}`,
  reference: "Reference",
  references: {
    constant: (name: string) => `\u201c${name}\u201d on every tray, uncoded, tasted first`,
    balanced: (_: string) => "Each product on half of the trays, uncoded, tasted first",
  } satisfies Record<"constant" | "balanced", (name: string) => string>,
  referenceA: (name: string) => `A is \u201c${name}\u201d, uncoded, tasted first`,
  repeatsOf: (people: number, repeats: number, where: "one-sitting" | "sessions") =>
    repeats === 1
      ? "None: one tray a panelist"
      : `${plural(people, "person", "people")} ${times} ${repeats} trays, ${where === "sessions" ? "one in each session" : "all in one sitting"}`,
  sessions: "Sessions",
  sessionsAre: (names: readonly string[]) => `Planned together: ${listed(names)}`,
  stopping: "Rule for stopping",
  stoppingIs: (stopping: Stopping): string =>
    stopping.rule === "fixed"
      ? "None: when everybody had answered"
      : stopping.rule === "looks"
        ? `Looks at ${listed(stopping.at)} answers and at the end, with one risk for all of them`
        : `Boundaries between guessing and the difference sought (Wald), beta ${chosenPercent(stopping.beta)}`,
  repeats: "Repeats",
  repeatsAre: (most: number, mixed: boolean) =>
    most <= 1
      ? "None: one sample of each product a panelist"
      : `Up to ${most} a panelist and product${mixed ? "" : ", averaged before the test"}`,
  model: "Model and error term",
  modelIs: {
    blocks: (balanced: boolean) =>
      `Products compared within panelists (panelists as blocks); the error term is panelists by products. The place on the tray is ${balanced ? "balanced by the design and " : ""}left out of the model.`,
    mixed: modelText,
  },
  ranked: (name: string) => `Ranked: ${name.trim()}`,
  chewed,
  rankModel: "Ranks compared within panelists, who put every product in one order. No distance between ranks is used.",
  orderExpected: (names: readonly string[]) =>
    `One-sided, for the order expected beforehand: ${names.map((name) => `\u201c${name}\u201d`).join(", ")}, from least to most`,
  missingIs: "Panelists with a missing mark stay in, with what they marked; nothing is filled in.",
  ballotIs: (wording: string, palette: "day" | "dim") =>
    `Wording ${wording}, screens set for ${palette === "dim" ? "dim light" : "daylight"}`,
  place: "Place and room",
  carried: "Who carried the trays",
  knew: (knew: boolean) => (knew ? "Knew the samples" : "Did not know the samples"),
  tablets: "Tablets",
  tabletsAre: (count: number, screens: readonly string[]) =>
    `${plural(count, "tablet", "tablets")}${screens.length === 0 ? "" : `, screen ${screens.join(", ")} CSS pixels`}`,
  pointers: (kinds: readonly string[]) => `Marks made by ${listed(kinds)}`,
  onPaper: (trays: number) =>
    `${plural(trays, "tray", "trays")} answered on paper, typed in by one person and checked by a second`,
  screen: (width: number, height: number) => `${width}${nbsp}${times}${nbsp}${height}`,
  when: "When",
  lockedOn: (instant: string) => `Plan locked ${dayAndTime(instant)}`,
  answersFrom: (first: string, last: string) =>
    `Answers kept ${dayAndTime(first)} to ${day(first) === day(last) ? clock(last) : dayAndTime(last)}`,
  closedOn: (instant: string) => `Closed ${dayAndTime(instant)}`,
  revealedOn: (instant: string) => `Key opened ${dayAndTime(instant)}`,
  leader: "Panel leader",
  standard: "Standard and edition",
  waves: "Waves as planned",
  wave: "Wave",
  starts: "Begins",
  people: "People",
  batchesOf: (product: string) => `Batches of ${product}`,
};

/** The checks of serving orders. */
export const orders = {
  heading: "Orders served",
  letters: (names: readonly string[]) =>
    `${names.map((name, place) => `${String.fromCharCode(65 + place)} is \u201c${name}\u201d`).join(", ")}.`,
  pair: { order: "Order served", answered: "Answered", first: "Preferred the one served first" },
  balance: {
    heading: "Balance of the trays counted",
    note: "How often each product stood at each place, and how often it came right after each other one. Equal numbers cancel what place and carry-over do to the means.",
    places: "Place",
    place: (place: number) => `Place ${place}`,
    after: "Right after",
    afterProduct: (product: string) => `after ${product}`,
  },
  places: ["first", "second", "third", "fourth", "fifth", "sixth"] as readonly string[],
  withheld: (least: number) => `Answers are broken down only where every group has ${least} or more.`,
};
