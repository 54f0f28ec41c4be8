import { designMethod } from "../../src/design/method.ts";
import { usualChew } from "../../src/model/chew-plan.ts";
import { emptyRanking, type Plan } from "../../src/model/plan.ts";
import { nothingAsked, usualPace } from "../../src/model/plan-question.ts";
import { type Judgment, type StudyRecord, studyRecord } from "../../src/model/record.ts";
import { read } from "../../src/model/schema.ts";

/** Orders of a method of two products without parts of their own. */
const ordersFor = (method: "triangle" | "tetrad") =>
  designMethod(method).orders({ products: 2, references: [], stronger: "A", weaker: "B" });

/**
 * The triangle study of Quillmere Kitchen as a closed and revealed record: Odalys Brandt asks whether the canteen staff
 * can tell meatballs steamed first from those of the current process. Four waves of six, one seat and tray a person.
 */
export const current = "11111111-1111-4111-8111-111111111111";
export const steamed = "22222222-2222-4222-8222-222222222222";
const study = "33333333-3333-4333-8333-333333333333";
const tablet = "44444444-4444-4444-8444-444444444444";
const hash = "a1f309c277be".padEnd(64, "0");

const product = (id: string, name: string, preparation: string) => ({ id, name, preparation });
const wave = (number: number) => ({
  id: `55555555-5555-4555-8555-55555555555${number}`,
  starts: `11:${number}5`,
  people: 6,
  session: "",
  batches: { [current]: [`current ${number}`], [steamed]: [`new ${number}`] },
});

const plan: Plan = {
  title: "Steam first: can our staff tell?",
  invented: false,
  copiedFrom: null,
  blank: false,
  asked: nothingAsked(),
  advised: null,
  pace: usualPace(),
  objective: "Find out whether canteen staff notice the new process.",
  ifYes: "Taste for juiciness next.",
  ifNo: "Stay with the dry oven.",
  standsFor: "staff of the four canteens",
  panelType: "colleagues",
  method: "triangle",
  noPreference: "not-offered",
  scale: { lengthMm: 120, attributes: [] },
  ranking: emptyRanking(),
  chew: usualChew(),
  scaleSought: null,
  perTray: null,
  comparisons: { kind: "all-pairs" },
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
  products: [
    product(current, "current", "Dry oven, 200 °C, 14 min"),
    product(steamed, "new", "Steam 95 °C, 9 min, then hot air 230 °C, 3 min"),
  ],
  raw: { drawn: "not-drawn" },
  looks: "masked",
  masking: "white lidded cups, amber dim light",
  waves: [0, 1, 2, 3].map(wave),
  serving: {
    portionGrams: 12,
    servingCelsius: 55,
    vessel: "white lidded cups",
    cleanser: "water and plain crackers",
    pauseSeconds: 45,
    swallow: "either",
    retaste: true,
    warmUp: true,
    warmUpWhat: "one meatball of the current process",
  },
  serverKnowsKey: false,
  place: "Quillmere Kitchen",
  palette: "dim",
  declarations: [],
  declarationsComplete: true,
  cautionsRead: [],
  cautionsApplying: [],
  avoidCodes: [],
  carrier: false,
  carrierWhat: "",
  limits: [],
  uncooked: false,
  responsible: "",
  served: "meatballs",
  contact: "Odalys Brandt, kitchen office",
};

const orders = ordersFor("triangle");

/** Tray t of 24: order by turns, its batch that of its wave, codes that tell nothing. */
function keyTray(tray: number) {
  const order = orders[(tray - 1) % 6] ?? "";
  const number = Math.floor((tray - 1) / 6);
  const samples = [...order].map((letter, place) => ({
    code: String(101 + tray * 30 + place),
    product: letter === "A" ? current : steamed,
    batch: `${letter === "A" ? "current" : "new"} ${number}`,
  }));
  return { tray, order, samples };
}
const trays = Array.from({ length: 24 }, (_, index) => keyTray(index + 1));

/** The code of tray t that is odd (right) or one of the two alike. */
export function codeOf(tray: number, right: boolean): string {
  const samples = trays[tray - 1]?.samples ?? [];
  const alike = (product: string) => samples.filter((sample) => sample.product === product).length;
  return samples.find((sample) => (alike(sample.product) === 1) === right)?.code ?? "";
}

export const judgmentOf = (tray: number, right: boolean, guess = false): Judgment => ({
  paper: false,
  tray,
  seat: tray,
  question: 1,
  wave: Math.floor((tray - 1) / 6),
  device: tablet,
  choice: codeOf(tray, right),
  guess,
});

/** A record in which trays 1 to `correct` are right and the rest of `answered` wrong, with anything changed that is given. */
export function recordOf(
  correct: number,
  answered = 24,
  change: Partial<StudyRecord> = {},
  planChange: Partial<Plan> = {},
): StudyRecord {
  const judgments = Array.from({ length: answered }, (_, index) => judgmentOf(index + 1, index < correct));
  return read(studyRecord, {
    study,
    plan: { ...plan, ...planChange },
    packet: {
      v: 1,
      study,
      method: "triangle",
      wording: "triangle-1",
      palette: "dim",
      allergens: { version: hash, contains: [], mayContain: [], other: [] },
      cautions: [],
      swallow: "either",
      cleanser: "water and plain crackers",
      pauseSeconds: 45,
      retaste: true,
      warmUp: true,
      trays: trays.map(({ tray, samples }) => ({
        tray,
        wave: Math.floor((tray - 1) / 6),
        spare: false,
        codes: samples.map(({ code }) => code),
      })),
      commitment: hash,
    },
    opened: { key: { v: 1, study, seed: "0badc0de", trays }, salt: "00ff" },
    keyMatches: true,
    commitment: hash,
    app: "1.0.0",
    lockedAt: "2026-05-03T08:00:00.000Z",
    closedAt: "2026-05-03T12:40:00.000Z",
    revealedAt: "2026-05-03T12:41:00.000Z",
    judgments,
    notAnswered: [],
    departures: [],
    ...change,
  });
}
