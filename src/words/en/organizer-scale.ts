import type { Moment } from "../../model/attribute.ts";
import { momentPhrase } from "./moment.ts";
import { listed, organizer } from "./organizer.ts";

/** Words of the line scale in a plan: its length, its properties, their end words and moments. */
const { nb } = organizer;

const millimeters = (length: number): string => `${length}${nb}mm`;

/** The moment of a property, at the end of a phrase. */
const momentText = (moment: Moment): string => momentPhrase(moment, (seconds) => `after ${seconds}${nb}s`);

export const scale = {
  length: "Length of the line",
  lengthHint: "Locked, and the same on every tablet; a tablet that cannot show it says so and is not used.",
  lengths: [
    { value: "120", label: millimeters(120), hint: "fits a tablet held upright" },
    { value: "150", label: millimeters(150), hint: "advised where every tablet can show it" },
    { value: "other", label: "Another length", hint: "" },
  ] as const,
  other: "Length in millimeters",
  millimeter: "mm",
  millimeters,
  properties: "What is judged",
  property: (at: number) => (at === 0 ? "Property 1, the one the question is about" : `Property ${at + 1}`),
  add: "Add a property",
  /** After a sample the next one follows; within it this order. */
  count: "The verdict is about the first property. A further one counts too only if it says so below.",
  order: "Asked of each sample: first what is asked at the first bite, then the later moments.",
  name: "Name in the report",
  nameHint: "Juiciness",
  definition: "What it means here",
  definitionHint: "One tap away for the panelist. \u201cJuice that is felt in the mouth while chewing.\u201d",
  low: "Word at the low end, left",
  high: "Word at the high end, right",
  /** End words while nobody has typed others. */
  ends: (adjective: string): { low: string; high: string } =>
    adjective === "" ? { low: "", high: "" } : { low: `not at all ${adjective}`, high: `extremely ${adjective}` },
  moment: "When is it judged?",
  momentAbout: "When is it judged? The moment that the question is about:",
  moments: [
    { value: "first-bite", label: "At the first bite", hint: "" },
    { value: "after", label: "Some seconds later", hint: "the tablet says when, without a sound" },
    { value: "chews", label: "After some chews", hint: "the panelist counts and says when" },
    { value: "before-swallowing", label: "Just before swallowing", hint: "or spitting; the panelist says when" },
  ] as const,
  momentText,
  seconds: "Seconds after the first bite",
  second: "s",
  chews: "Chews, counted from the first bite",
  chew: "chews",
  further: {
    legend: (at: number) => `And also (${at + 1}):`,
    add: "Ask again at another moment",
    hint: "of the same bite. Two or three moments in all are enough.",
    remove: (at: number) => `Remove moment (${at + 1})`,
    removed: "Removed a moment of a property.",
  },
  /** In the plan's one sentence, behind a further property. */
  standing: (inFamily: boolean): string => (inFamily ? " (counts too)" : " (only looked at)"),
  /** At the lock: which properties share the risk. */
  counts: {
    term: "What counts for the verdict",
    one: (name: string) => `\u201c${name}\u201d alone. The verdict is about it.`,
    several: (names: readonly string[]) =>
      `${listed(names.map((name) => `\u201c${name}\u201d`))} share the risk of a false yes (Holm). The verdict is about the first.`,
    looked: (names: readonly string[]) =>
      `Only looked at: ${listed(names.map((name) => `\u201c${name}\u201d`))}. No verdict.`,
    moments: "What is asked again at further moments is only looked at.",
  },
  preview: "What the panelist reads",
  noQuestion: "The question appears here when its word is typed.",
  up: (name: string) => `Move ${name || "this property"} up`,
  down: (name: string) => `Move ${name || "this property"} down`,
  remove: (name: string) => `Remove ${name || "this property"}`,
  removed: (name: string) => `Removed ${name ? `\u201c${name}\u201d` : "a property"} from what is rated.`,
};
