import type { Allergen } from "../../model/allergen.ts";
import type { Caution, Plan } from "../../model/plan.ts";
import { listed, organizer, plural } from "./organizer.ts";
import { planPartNames } from "./planning.ts";

/** Words of the plan page: its parts, their one-sentence summaries, hints and notes in the margin. */
const { nb } = organizer;

/** A number as people write it, without a trail of zeros. */
const figure = (value: number): string => String(Math.round(value * 100) / 100);
const oneDecimal = (value: number): string => String(Math.round(value * 10) / 10);
const percent = (share: number): string => `${figure(share * 100)}${nb}%`;
const inHundred = (chance: number): string => {
  const of100 = chance * 100;
  if (of100 > 99.5 && of100 < 100) return "more than 99 of 100";
  if (of100 < 0.5 && of100 > 0) return "less than 1 of 100";
  return `${Math.round(of100)} of 100`;
};

/** Risks that have a phrase; others are said in percent. */
const oneIn: Record<string, string> = {
  "0.1": "one time in ten",
  "0.05": "one time in twenty",
  "0.01": "one time in a hundred",
  "0.001": "one time in a thousand",
};
const risk = (alpha: number): string => oneIn[String(alpha)] ?? `${figure(alpha * 100)} times in a hundred`;

export const allergenNames: Record<Allergen, string> = {
  "gluten-cereals": "cereals with gluten (wheat, rye, barley, oats)",
  crustaceans: "crustaceans",
  egg: "egg",
  fish: "fish",
  peanut: "peanut",
  soy: "soy",
  milk: "milk",
  "tree-nuts": "tree nuts",
  celery: "celery",
  mustard: "mustard",
  sesame: "sesame",
  sulfites: "sulfites",
  lupin: "lupin",
  molluscs: "molluscs",
};
const allergenShort: Record<Allergen, string> = { ...allergenNames, "gluten-cereals": "cereals with gluten" };

const cautionTexts: Record<Caution, { name: string; text: string }> = {
  hygiene: {
    name: "Clean hands, well people",
    text: "Whoever handles samples has clean hands and is well. Tablets and table are wiped between people. Nobody with a cold, a sore mouth or an upset stomach takes part; nobody has to say why.",
  },
  choking: {
    name: "Choking",
    text: "Portions are small and soft-edged; people sit, do not talk while they chew and have water at hand. Somebody trained in first aid is near. Anyone who has trouble swallowing sits out.",
  },
  undercooked: {
    name: "Raw or undercooked food",
    text: "Pregnant people, young children, people over 65 or with a weak immune system should not take part. The tablet warns everybody; it does not ask why somebody declines.",
  },
  alcohol: {
    name: "Alcohol",
    text: "The kitchen checks ages. Samples are spat out unless planned otherwise, the total is small, and nobody drives right after.",
  },
};

const looksWords = {
  alike: "alike by looks",
  masked: "different by looks, masked",
  differ: "different by looks, not masked",
} as const;

/** "4 waves of 6 people at 11:15 and 12:15", or each wave with its people where they differ. */
function wavesText({ waves }: Plan): string {
  const starts = waves.map((wave, at) => wave.starts.trim() || `wave ${at + 1}`);
  const people = new Set(waves.map((wave) => wave.people));
  const [each = 0] = people;
  if (people.size > 1) {
    return listed(waves.map((wave, at) => `${plural(wave.people, "person", "people")} at ${starts[at]}`));
  }
  const size = plural(each, "person", "people");
  return waves.length === 1
    ? `One wave of ${size} at ${starts[0]}`
    : `${waves.length} waves of ${size}, at ${listed(starts)}`;
}

const summaries = {
  question: (plan: Plan) =>
    [
      plan.objective.trim(),
      plan.ifYes.trim() && `If yes: ${plan.ifYes.trim()}`,
      plan.ifNo.trim() && `If no: ${plan.ifNo.trim()}`,
    ]
      .filter(Boolean)
      .map((text) => (/[.?!]$/.test(String(text)) ? text : `${text}.`))
      .join(" "),
  method: (plan: Plan) => `Triangle, to show a difference; fooled by chance at most ${risk(plan.alpha)}.`,
  people: (f: { people: number; spares: number; needed: number | null; chance: number; share: number }) =>
    f.needed === null
      ? `${plural(f.people, "person", "people")}: too few for any result to count.`
      : `${plural(f.people, "person", "people")} and ${plural(f.spares, "spare tray", "spare trays")}; ${f.needed} must be right. Finds ${percent(f.share)} who can tell in ${inHundred(f.chance)} such studies.`,
  samples: (plan: Plan) => {
    const names = listed(plan.products.map(({ name }) => `\u201c${name.trim() || "no name yet"}\u201d`));
    const parts = [
      plan.serving.portionGrams === null ? "" : `${figure(plan.serving.portionGrams)}${nb}g`,
      plan.serving.servingCelsius === null ? "" : `${figure(plan.serving.servingCelsius)}${nb}\u00b0C`,
      plan.serving.vessel.trim(),
      plan.looks === null ? "" : looksWords[plan.looks],
      plan.serving.warmUp ? "with a warm-up" : "no warm-up",
    ].filter(Boolean);
    return plan.products.length === 0 ? "" : `${names}; ${parts.join(", ")}.`;
  },
  serving: (plan: Plan) =>
    plan.waves.length === 0
      ? ""
      : [
          `${wavesText(plan)}.`,
          plan.place.trim() && `${plan.place.trim()}.`,
          `The server ${plan.serverKnowsKey ? "knows" : "does not know"} the key.`,
        ]
          .filter(Boolean)
          .join(" "),
  safety: (contains: readonly Allergen[], may: readonly Allergen[], other: readonly string[]) => {
    const has = [...contains.map((a) => allergenShort[a]), ...other];
    return [
      has.length === 0 ? "No allergen declared." : `Contains ${listed(has)}.`,
      may.length === 0 ? "" : `May contain ${listed(may.map((a) => allergenShort[a]))}.`,
    ]
      .filter(Boolean)
      .join(" ");
  },
};

const question = {
  title: "Title of the study",
  titleHint: "For you and the readers. Tablets never get it.",
  objective: "What is the question?",
  objectiveHint:
    "One pair of products, one kind of people. \u201cCan our staff tell the new process from the current one?\u201d",
  ifYes: "If yes, what will be done?",
  ifNo: "If no, what will be done?",
  standsFor: "Who does the panel stand for?",
  note: "Without two different actions, one for yes and one for no, there is nothing to test.",
  standsForHint: "Leave it empty if these people stand for themselves only; the report then says so.",
};

const method = {
  name: "Method",
  triangle: "Triangle",
  triangleIs:
    "Three coded samples, two alike and one different. The panelist picks the different one; a guess is right one time in three.",
  yesTerm: "If yes",
  noTerm: "If no",
  yes: "A yes lets you say that people like these notice a difference. It does not say what differs, which one is better, or which way.",
  no: "A no does not let you say that they are the same: the panel may have been too small.",
  only: "The triangle is the one method that can be planned in this version. If you know which property differs, a paired question would need far fewer people.",
  goal: "Goal",
  difference: "To show a difference",
  alpha: "How often may chance fool you?",
  alphaHint: "The risk of seeing a difference that is not there, called alpha. It is fixed at lock.",
  alphaOptions: [
    { value: 0.05, label: `5${nb}%: one study in twenty`, hint: "usual" },
    { value: 0.01, label: `1${nb}%: one study in a hundred`, hint: "when a false yes is costly" },
    { value: 0.1, label: `10${nb}%: one study in ten`, hint: "when a missed difference is costly" },
  ],
  otherAlpha: (alpha: number) => `${percent(alpha)}: ${risk(alpha)}`,
  preview: "What the panelist reads",
};

const people = {
  people: "People you can seat",
  peopleSlider: "People, by slider",
  spares: "Spare trays",
  sparesNote:
    "Spare trays are for dropped samples and for people who turn up. They are drawn at lock and served in order.",
  share: "Share who can tell, to be found",
  shareSlider: "Share who can tell, by slider",
  shareNote: `As a rule of thumb, fewer than 25${nb}% who can tell is a small difference, more than 35${nb}% a large one.`,
  finds: (count: number, chance: number) =>
    `With ${plural(count, "person", "people")} this plan finds it in ${inHundred(chance)} such studies.`,
  other: (count: number, chance: number) => `With ${count}: ${inHundred(chance).replace(" of 100", "")}.`,
  never: (count: number) => `With ${plural(count, "person", "people")} no result can count, not even if all are right.`,
  glaring: (share: number) =>
    `This panel finds only a glaring difference: ${percent(share)} of people must be able to tell before it is found in 80 of 100 studies.`,
  tooMany:
    "No kitchen seats the people that this would take. Look for a larger difference, or ask a narrower question.",
  needed: (count: number, needed: number, chance: number) =>
    `${count}${nb}people need ${needed}${nb}right. Fooled by chance: ${oneDecimal(chance * 100)} in 100.`,
  jump: "Why the dots jump: the number needed is whole, so one more person can make it harder for a moment.",
  source: "Source: exact binomial.",
  picture: (share: number) =>
    `Chance of finding ${percent(share)} who can tell, in 100 such studies, by number of people. Your choice is the large dot.`,
  axis: "people",
  asTable: "The picture as a table",
  columns: {
    people: "people",
    needed: "needed right",
    finds: (share: number) => `finds ${percent(share)}`,
    fooled: "fooled by chance",
  },
  none: "none",
  ofHundred: inHundred,
  chosen: "your choice",
};

const samples = {
  products: "The two products",
  letter: (at: number) => `Product ${String.fromCharCode(65 + at)}`,
  name: "Name",
  preparation: "Preparation, up to the cup",
  add: "Add a product",
  remove: (name: string) => `Remove ${name || "this product"}`,
  removed: (name: string) => `Removed ${name ? `\u201c${name}\u201d` : "a product"} and its batches and declaration.`,
  looks: "Could you tell them apart by looking?",
  looksOptions: [
    { value: "alike", label: "No, they look alike", hint: "" },
    { value: "masked", label: "Yes, and it will be masked", hint: "" },
    { value: "differ", label: "Yes, and it will not be masked", hint: "the report says so" },
  ] as const,
  masking: "How is it masked?",
  maskingHint: "Light, lidded cups, colored cups, cutting.",
  portion: "Portion",
  grams: "g",
  celsius: "\u00b0C",
  temperature: "Served at",
  vessel: "Vessel",
  vesselHint: "The same for both, within and between trays.",
  cleanser: "To clear the palate",
  pause: "Pause between samples",
  seconds: "seconds",
  pauseHint: "At least 30 s is usual.",
  swallow: "Swallow or spit",
  swallowOptions: [
    { value: "swallow", label: "Swallow every sample", hint: "" },
    { value: "spit", label: "Spit every sample out", hint: "" },
    { value: "either", label: "As each likes, but the same for every sample", hint: "" },
  ] as const,
  retaste: "Going back to a sample of the same tray is allowed",
  warmUp: "A warm-up sample comes first: the same for everybody, not counted",
  warmUpWhat: "What is the warm-up sample?",
  palette: "Screen of the tablets",
  paletteOptions: [
    { value: "day", label: "Light, for a lit room", hint: "" },
    { value: "dim", label: "Dark, for dim or colored light", hint: "" },
  ] as const,
  sample: "Food and cup",
  tasting: "How it is tasted",
  notePreparation: "Preparation is everything done to it, so that a reader sees that only the treatment differs.",
  note: "Both products are prepared out of sight and alike in all but the treatment. Cups, portion and temperature are the same within and between trays.",
  noteBatch:
    "Two batches of each product are the least if the result is to say something about the process and not about one pan.",
};

const serving = {
  waves: "Waves",
  wave: (at: number) => `Wave ${at + 1}`,
  starts: "Begins at",
  people: "People",
  batches: (name: string) => `Batches of ${name || "this product"}`,
  batchesNote:
    "Batches: one name for each pot or pan, with commas between, like C1, C2. The names stay in the kitchen.",
  add: "Add a wave",
  remove: (at: number) => `Remove wave ${at + 1}`,
  removed: (at: number) => `Removed wave ${at + 1}.`,
  count: (inWaves: number, planned: number) =>
    inWaves === planned
      ? `The waves seat all ${planned}.`
      : inWaves < planned
        ? `The waves seat ${inWaves} of ${planned}; ${planned - inWaves} more to place.`
        : `The waves seat ${inWaves}, but the plan has ${planned} people.`,
  needsProducts: "Batches can be named once part 4 has its products.",
  place: "Place",
  placeHint: "Room, light, booths.",
  server: "Does whoever carries the trays know which code is which?",
  serverOptions: [
    { value: "no", label: "No", hint: "" },
    { value: "yes", label: "Yes, one person fills and carries", hint: "the report says so" },
  ] as const,
  avoid: "Codes that mean something here",
  avoidHint: "Room numbers, bus lines, local slang; three digits each, with spaces between. They are not drawn.",
  badCodes: (bad: string) => `${bad} is not a three-digit code from 100 to 999. Codes have spaces between: 112 404.`,
  note: "Trays of one wave come from the batches named for it. Both cups of one product on a tray come from one batch.",
};

const safety = {
  law: "This app does not replace food law, your hygiene plan or medical advice. Local codes and the responsible person decide.",
  declaration: "Allergens of everything that is eaten",
  declarationHint:
    "Every panelist sees one list for all of it, the same for every tray, and stops if it concerns them.",
  of: { "warm-up": "the warm-up sample", cleanser: "the palate cleanser", carrier: "the carrier" } as Record<
    string,
    string
  >,
  addCarrier: "Declare a carrier (bread, sauce, broth)",
  removeCarrier: "There is no carrier",
  removedCarrier: "Removed the declaration of the carrier.",
  allergen: "allergen",
  contains: "contains",
  mayContain: "may contain",
  us: "* also among the nine that US law names (of the cereals, wheat).",
  other: "Anything else to declare",
  undeclaredShort: "not declared yet",
  declare: (name: string) => `Declare ${name}`,
  complete: "I have checked the recipes: these declarations are complete and true",
  needsProducts: "Products come first: part 4 names them.",
  cautions: "Cautions",
  applies: (name: string) => `Applies: ${name.toLowerCase()}`,
  read: "Read, and taken care of",
  cautionTexts,
  edited: "A change of ingredients needs this word again.",
  note: "Which allergy somebody has is stored nowhere. Who is concerned stops; the log says \u201cnot cleared\u201d and no more.",
  note2: "Lists: EU Regulation 1169/2011, Annex II; US FALCPA and FASTER Act. Both can change.",
};

export const planWords = {
  parts: planPartNames,
  change: "change",
  done: "done",
  /** For people who hear the page: which part the button belongs to. */
  ofPart: (part: string) => `: ${part}`,
  begun: (instant: string) => `begun ${organizer.day(instant)}`,
  notStarted: "Not started.",
  stillOpen: "Still open:",
  nextPart: "Next",
  undo: "Undo",
  versions: (count: number) =>
    `This plan was changed on ${count} devices at the same time. You see the newest version; the others are kept in the log.`,
  percent,
  figure,
  number: {
    notANumber: (label: string) => `${label}: type a number, like 12 or 12.5.`,
    whole: (label: string) => `${label}: type a whole number.`,
    range: (label: string, low: number, high: number) => `${label}: between ${low} and ${high}.`,
    stays: (value: string) => `Until then ${value} stays in the plan.`,
    empty: "nothing",
  },
  summaries,
  question,
  method,
  people,
  samples,
  serving,
  safety,
  lockLine: "Locking fixes all of this for good and seals the key.",
  lockOpen: (parts: readonly string[]) =>
    `Lock the plan: ${listed(parts)} ${parts.length === 1 ? "is" : "are"} still open.`,
  toLock: "Lock the plan\u2026",
};
