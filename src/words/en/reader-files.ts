/** Buttons and names of everything that can be saved from a result. */
export const files = {
  pictures: "Pictures",
  which: "Which picture",
  svg: "SVG",
  png: "PNG",
  screenSvg: "SVG for a screen (16:9)",
  screenPng: "PNG for a screen (16:9)",
  noPng: "This browser could not draw the picture as PNG. The SVG holds the same.",
  data: "Data",
  csv: "Answers (CSV)",
  dictionary: "Data dictionary (JSON)",
  temperatures: "Temperatures and times (CSV)",
  temperatureDictionary: "Dictionary of the temperatures (JSON)",
  temperaturesTitle: (title: string) => `Temperatures and times of the study: ${title}`,
  temperaturesText: (title: string) =>
    `What the kitchen wrote down for the study \u201c${title}\u201d: one row a reading or a time, with products and batches by the opened key.`,
  together: (dictionary: string) =>
    `The dictionary (${dictionary}) is a tabular data package: it names the CSV file and says what each column holds. Keep both in one folder; a program that looks for a file named datapackage.json wants it renamed so.`,
  json: "Result (JSON)",
  study: "Study file",
  print: "Print",
  /** On a picture for a screen: where it comes from. */
  foot: (title: string, app: string) => `${title} \u00b7 Cloche ${app}`,
  footSealed: (title: string, commitment: string, app: string) =>
    `${title} \u00b7 commitment ${commitment} \u00b7 Cloche ${app}`,
  packageTitle: (title: string) => `Answers of the study: ${title}`,
  packageText: (title: string) =>
    `The counted answers of the study \u201c${title}\u201d, one row an answer or mark, held against the opened key. Panelists are seats; names are in no file.`,
};

type Column = { title: string; description: string };

/** What the columns of the answers hold, by the name in the header. */
export const columns: Record<string, Column> = {
  panelist: { title: "Panelist", description: "The seat, a pseudonym: one person throughout the study." },
  repeat: { title: "Repeat", description: "Which answer of this person it is, from 1." },
  correct: { title: "Correct", description: "1: the right answer by the opened key; 0: another one." },
  choice: {
    title: "Choice",
    description:
      "What was chosen: the code of the sample picked (of two pairs, the code put together with the first sample); where neither product is right, the product, or none for no preference.",
  },
  served: {
    title: "Served",
    description: "What was on the tray by the opened key: same or different; A or not A.",
  },
  answer: { title: "Answer", description: "What the panelist said of it: same or different; A or not A." },
  session: { title: "Session", description: "The session or site in which the tray was served." },
  question: { title: "Question", description: "Number of the question on this tray, from 1." },
  property: { title: "Property", description: "The property that was asked for." },
  position_of_right: {
    title: "Position of the right sample",
    description: "Place in serving order, from 1; of two pairs, the place of the sample that goes with the first one.",
  },
  pairs: {
    title: "Pairs",
    description: "How the panelist put the four samples together, by their codes: each pair joined by a plus sign.",
  },
  reference_product: { title: "Reference", description: "The product in the uncoded reference cup." },
  reference_batch: { title: "Batch of the reference", description: "Batch of the sample in the reference cup." },
  position_chosen: {
    title: "Position of the choice",
    description: "Place of the sample chosen in serving order, from 1; empty for no preference.",
  },
  code_chosen: { title: "Code chosen", description: "Code of the sample chosen; empty for no preference." },
  product: { title: "Product", description: "The product that the sample was, by the opened key." },
  grams_in: { title: "Portion", description: "Mass of the portion before it was chewed, in grams as typed." },
  grams_out: {
    title: "Closed cup",
    description:
      "Mass of the closed cup after chewing, with lid and rinse water, in grams as typed; empty where the portion does not count.",
  },
  cup: { title: "Empty cup", description: "Mass of the empty cup with its lid, in grams as typed." },
  rinse: {
    title: "Rinse water",
    description: "Mass of the water spat into the cup, in grams as typed; 0 or empty: none.",
  },
  seconds: { title: "Seconds chewed", description: "By the tablet’s own clock, between the panelist’s two touches." },
  weighed_after: {
    title: "Weighed afterwards",
    description: "Mass of the closed cup, also where the portion does not count; empty where it was not weighed.",
  },
  left_out: {
    title: "Left out",
    description:
      "Why the portion does not count: swallowed, not-weighed, contradicted or impossible; empty where it counts.",
  },
  attribute: { title: "Attribute", description: "The property judged, as the plan names it." },
  moment: {
    title: "Moment",
    description: "When it was judged: at the first bite, so many seconds or chews after it, or just before swallowing.",
  },
  value: {
    title: "Value",
    description:
      "The mark on the line, 0 at the low end to 100 at the high end; of a scale with steps the number of the step, from 1. Empty: no mark, which is not 0.",
  },
  scale: {
    title: "Scale",
    description:
      "line; or steps, liking or just-right with how many steps there are. Of just-right the middle step is the goal.",
  },
  label: { title: "Words of the step", description: "What the step that was chosen said; empty on a line." },
  rank: { title: "Rank", description: "Place that the panelist gave the sample, from 1 for the least." },
  tray: { title: "Tray", description: "Number of the tray." },
  pot: { title: "Pot", description: "Label under which the batch went on the day; empty for what a cup had." },
  what: {
    title: "What",
    description: "core, held-hot, held-cold or serving: a temperature. left-heat or served: a time.",
  },
  celsius: { title: "Degrees Celsius", description: "The temperature as typed; empty for times." },
  held_seconds: { title: "Seconds held", description: "How long a core stayed at that temperature." },
  rest_minutes: { title: "Minutes of rest", description: "How long the food rested after that." },
  time: {
    title: "Time",
    description:
      "An instant in UTC: when a batch left the heat, by the clock on the wall; else when the entry was made, by that device's clock.",
  },
  verdict: {
    title: "Beside the limits",
    description:
      "met, below, past, allowed (below its limit and served in the name of somebody) or no-limit; empty: nothing to hold it against.",
  },
  follows_nothing: {
    title: "Stands",
    description: "1: no later entry follows this one, so it counts; 0: it was followed.",
  },
  probe: { title: "Probe", description: "Which probe was used, and when it was last checked." },
  note: { title: "Note", description: "What was noted with it." },
  wave: { title: "Wave", description: "Number of the wave in which it was served, from 1." },
  order: {
    title: "Order",
    description:
      "Products in serving order by letter; A is the first product of the plan. A letter before a colon is the reference cup.",
  },
  position: { title: "Position", description: "Place of the sample in serving order, from 1." },
  position_of_odd: { title: "Position of the odd sample", description: "Place in serving order, from 1." },
  batch: { title: "Batch", description: "Batch of the sample, by the opened key." },
  code: { title: "Code", description: "Three-digit code of the sample." },
  source: {
    title: "Source",
    description: "tablet; or paper, typed in by one person and checked by a second.",
  },
  guess: { title: "Guess", description: "1: \u201cthis was a guess\u201d was ticked; 0: it was not." },
  why: {
    title: "Why there is no mark",
    description:
      "Empty where there is a mark. not-perceived, not-understood, sample, other: the panelist’s reason; no-answer-in-time: the question was never answered, or after the close and not admitted.",
  },
  chewed_seconds: {
    title: "Seconds of chewing",
    description: "Seconds from the first bite to the question, by the tablet’s clock; empty where no clock ran.",
  },
  answer_seconds: {
    title: "Seconds to answer",
    description: "Seconds from the question’s appearance to the kept mark; empty on paper. In a lead’s file only.",
  },
  line_mm: { title: "Line", description: "Length of the line as shown, or as measured on paper, in millimeters." },
  hidden: {
    title: "App in the background",
    description: "1: the app was in the background while the chew was timed, so the moment is in doubt; 0: it was not.",
  },
  pointer: { title: "Pointer", description: "How the mark was made: touch, pen, mouse, keyboard or paper." },
};
const numbered: Record<string, Column> = {
  product: { title: "Product in this place", description: "Product of the sample in this place of the serving order." },
  batch: { title: "Batch in this place", description: "Batch of the sample in this place of the serving order." },
  code: { title: "Code in this place", description: "Code of the sample in this place of the serving order." },
};

/** What a column holds; "product_2" and its like by place. A column nobody described is named by its header alone. */
export function columnText(name: string): Column {
  const known = columns[name];
  if (known) return known;
  const [, stem = "", place = ""] = /^(.*)_(\d+)$/.exec(name) ?? [];
  const text = numbered[stem];
  return text ? { title: `${text.title} (${place})`, description: text.description } : { title: name, description: "" };
}
