import { chosenPercent, nbsp, percent, shortNumber, wholeNumber } from "../number.ts";

/**
 * The furniture of the reader's page: headings, labels, buttons, dates. The sentences that state a result are made in
 * `report.ts`.
 */
const times = "\u00d7";
const minus = "\u2212";

const number = (value: number): string => shortNumber(value).replace("-", minus);
const plural = (count: number, one: string, many: string): string =>
  `${wholeNumber(count)}${nbsp}${count === 1 ? one : many}`;

/** Days and times as the device at hand shows them, in its own time zone. */
const day = (instant: string): string => new Date(instant).toLocaleDateString("en-US", { dateStyle: "medium" });
const clock = (instant: string): string =>
  new Date(instant).toLocaleTimeString("en-US", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const dayAndTime = (instant: string): string => `${day(instant)}, ${clock(instant)}`;

const grouped = (hash: string): string => (hash.slice(0, 12).match(/.{4}/g) ?? []).join(nbsp);

/** The picture of chance and the table that says the same; its caption and marks come from `report.ts`. */
const picture = {
  asTable: "The picture as a table",
  right: "number right",
  panels: "of 100 guessing panels",
  mark: "mark",
  joined: (counts: number) => `Each column holds ${counts} neighboring counts.`,
};

const done = {
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
  panel: "Panel",
  panelIs: (planned: number, answered: number) =>
    `${plural(planned, "person", "people")} planned, ${plural(answered, "answer", "answers")} counted`,
  standsFor: (whom: string) => `Stands for: ${whom}`,
  experience: "Experience and selection",
  rule: "Rule locked beforehand",
  riskIs: (alpha: number, share: number) =>
    `Risk of a false alarm (alpha) ${chosenPercent(alpha)}; to find ${percent(share)} who can tell`,
  beta: (power: number) => `Risk of missing that (beta) ${percent(1 - power)}`,
  guesses: "Guesses ticked",
  guessesAre: (ticked: number, right: number) =>
    ticked === 0 ? "None" : `${plural(ticked, "answer", "answers")}, ${right} of them right; all are counted`,
  ballot: "Ballot",
  ballotIs: (wording: string, palette: "day" | "dim") =>
    `Wording ${wording}, screens set for ${palette === "dim" ? "dim light" : "daylight"}`,
  place: "Place and room",
  carried: "Who carried the trays",
  knew: (knew: boolean) => (knew ? "Knew the samples" : "Did not know the samples"),
  tablets: "Tablets",
  tabletsAre: (count: number, screens: readonly string[]) =>
    `${plural(count, "tablet", "tablets")}${screens.length === 0 ? "" : `, screen ${screens.join(", ")} CSS pixels`}`,
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

const orders = {
  heading: "Orders served",
  letters: (names: readonly string[]) =>
    `${names.map((name, place) => `${String.fromCharCode(65 + place)} is \u201c${name}\u201d`).join(", ")}.`,
  places: ["first", "second", "third", "fourth", "fifth", "sixth"] as readonly string[],
  withheld: (least: number) => `Right answers are broken down only where every group has ${least} or more.`,
};

const details = {
  heading: "Details",
  formula: "The exact formula",
  formulaText: (f: {
    judgments: number;
    correct: number;
    choices: number;
    alpha: number;
    needed: number | null;
    bounds: boolean;
  }) => [
    `p is the chance that ${f.judgments} answers hold ${f.correct} or more right ones when each is right with chance 1/${f.choices}: the upper tail of the binomial distribution, exact, with no approximation by a bell curve.`,
    f.needed === null
      ? `Needed would be a count whose upper tail is ${f.alpha} or less; with so few answers there is none.`
      : `Needed is the smallest count whose upper tail is ${f.alpha} or less: ${f.needed}.`,
    `Share who can tell = (share right ${minus} 1/${f.choices}) / (1 ${minus} 1/${f.choices}), and 0 where that would be below 0.`,
    f.bounds
      ? `Its bound is exact (Clopper and Pearson) and one-sided at confidence 1 ${minus} alpha, so that it lies above 0 just when p is alpha or less; a range with two ends is at 1 ${minus} 2 alpha for the same reason.`
      : "It has no bounds here: some people answered more than once, and answers of one person hang together.",
    `d\u2032 is the distance at which the method\u2019s psychometric function gives the share right${f.bounds ? "; its bound is the same bound, carried over" : ""}.`,
    "The dots of the picture stand at the middles of 100 equal parts of the exact distribution of guessing.",
  ],
  software: "Software and seed",
  computed: "Computed by",
  locked: "Locked by",
  version: (app: string) => `Cloche ${app}`,
  seed: "Seed of the serving orders",
  study: "Study",
  key: "The key, and how to check it by hand",
  commitment: "Commitment",
  salt: "Salt",
  checkByHand:
    "The commitment is the SHA-256 of one text: a fixed line, the salt, and the key as canonical JSON. Save that text, take its SHA-256 with any program, and compare it with the commitment above and with the one on the sealed page.",
  saveKeyText: "Save the text that was hashed",
  tray: "Tray",
  order: "Order",
  samples: "Code, product and batch, in serving order",
  sample: (product: string, batch: string) => (batch === "" ? product : `${product}, ${batch}`),
};

const verify = {
  start: "Verify this result",
  again: "Verify again",
  good: "Verified on this device just now:",
  bad: "Not verified. Do not rely on this result before this is cleared up.",
  points: {
    read: (_good: boolean, events: number) => `${plural(events, "record", "records")} read from the study file.`,
    "left-out": (_good: boolean, events: number) =>
      `${plural(events, "record", "records")} left out, because a newer version of Cloche wrote them. Verify with that version.`,
    links: (good: boolean, broken: number) =>
      good
        ? "Every record names the one its device wrote before by its hash, and all these links hold."
        : `${plural(broken, "record does", "records do")} not follow the one before: the log was changed, or a part is missing.`,
    missing: (good: boolean, missing: number) =>
      good
        ? "Every record that was known at the close and the reveal is there."
        : `${plural(missing, "record", "records")} known at the close or the reveal ${missing === 1 ? "is" : "are"} missing.`,
    commitment: (good: boolean) =>
      good
        ? "The opened key gives the commitment that was locked."
        : "The opened key does not give the commitment that was locked.",
    result: (good: boolean) =>
      good
        ? "Computed anew from the records, the result is the same in every digit."
        : "Computed anew from the records, the result is not the one shown.",
  },
};

const problemsHere = {
  heading: "This page cannot be shown",
  again: "Try again",
  heldBefore: "This is what this device received before.",
};

/** Everything on the reader's page that is not a sentence of the result. */
export const reader = {
  name: "Cloche",
  documentTitle: (title: string) => `${title} \u00b7 Cloche`,
  grouped,
  day,
  dayAndTime,
  loading: "Loading\u2026",
  enroll: {
    heading: "Read results",
    lead: "Ask the lead for a reader code. It works once, within ten minutes.",
    code: "Reader code",
    name: "Your name, as the lead should see it",
    submit: "Go on",
    working: "One moment\u2026",
    missing: "Fill in the code and a name.",
    wrongRole: "This code is not for a reader. Ask the lead for a reader code.",
  },
  list: {
    heading: "Results",
    none: "No study has been opened yet. A study appears here after the lead has closed it and opened its key.",
    opened: (instant: string) => `opened ${day(instant)}`,
    all: "All results",
  },
  sealed: {
    heading: "This study is sealed",
    text: "Its result appears here after the lead has closed the study and opened the key. Until then nobody sees numbers, so that nothing can sway the tasting.",
    again: "Look again",
    unknown: "There is no opened study at this address",
    unknownText:
      "It may still be sealed, or the address may be mistyped. A result appears after the lead has closed the study and opened its key.",
  },
  top: {
    locked: (instant: string) => `locked ${day(instant)}`,
    matches: (commitment: string) => `key matches its seal ${grouped(commitment)}`,
    differs: (commitment: string) => `key does not match its seal ${grouped(commitment)}`,
    stop: "Stop.",
    mismatch:
      "The opened key is not the one that was locked. Nothing below can be relied on. Compare the sealed page with the commitment in Details.",
    missing: (events: number) =>
      `${plural(events, "record", "records")} that ${events === 1 ? "was" : "were"} known when the key was opened ${events === 1 ? "is" : "are"} not on this device, or cannot be read by this version. The numbers may change.`,
  },
  picture,
  sections: {
    numbers: "The numbers",
    notShown: "What this does not show",
    departures: "Departures from the plan",
  },
  done,
  orders,
  details,
  verify,
  exports: {
    heading: "Files and proof",
    print: "Print",
    csv: "Data (CSV)",
    json: "Result (JSON)",
    study: "Study file",
    picture: "Picture (SVG)",
    fileName: (title: string, what: string) =>
      `${
        title
          .replace(/[^\p{L}\p{N}]+/gu, "-")
          .replace(/^-|-$/g, "")
          .toLowerCase() || "study"
      }-${what}`,
  },
  remarks: {
    heading: "Remarks from panelists",
    show: (count: number) => `Remarks from panelists (${count})`,
    hide: "Hide the remarks",
    none: "No remarks were left.",
    tray: (label: string) => `tray ${label}`,
  },
  print: {
    page: "page",
    of: "of",
    commitment: (commitment: string) => `commitment ${grouped(commitment)}`,
    printed: (instant: string) => `printed ${dayAndTime(instant)}`,
  },
  problems: problemsHere,
};
