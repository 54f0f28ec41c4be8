import type { Moment } from "../../model/attribute.ts";
import { momentPhrase } from "./moment.ts";
import { listed, organizer, plural } from "./organizer.ts";
import { percent, risk } from "./organizer-figures.ts";

/** Words of the page of the kitchen's own defaults. */
const { nb } = organizer;

/** What can differ between two versions, in the order of the page. */
const fields = {
  portionGrams: "portion",
  servingCelsius: "serving temperature",
  vessel: "vessel",
  cleanser: "what clears the palate",
  pauseSeconds: "pause",
  swallow: "swallow or spit",
  retaste: "tasting again",
  warmUp: "warm-up",
  warmUpWhat: "warm-up sample",
  place: "place",
  palette: "screen of the tablets",
  panelType: "who sits on the panel",
  standsFor: "who the panel stands for",
  alpha: "risk of being fooled by chance",
  cautionsApplying: "cautions",
  contact: "whom people can turn to",
  limits: "limits of temperature and time",
  avoidCodes: "codes to avoid",
  properties: "properties",
} as const;
export type KitchenField = keyof typeof fields;
export const kitchenFields = Object.keys(fields) as KitchenField[];

export const kitchenWords = {
  heading: "Kitchen",
  lead: "What this kitchen usually does. A new study begins with it, and may do otherwise.",
  note: "A change here changes no study that is there already.",
  noteTablets: "Nothing of this page goes to a tablet. What a study took over goes with its plan, once that is locked.",
  noteDay:
    "Allergens, the look of the samples and who carries the trays are asked anew for each study: they depend on the food and the day.",
  offline: "The server cannot be reached. What you change is kept here and sent later.",
  last: (name: string, at: string) => `last changed by ${name}, ${organizer.dayAndTime(at)}`,
  cup: "Food and cup",
  tasting: "How it is tasted",
  room: "Room and screen",
  panel: "Panel and risk",
  panelType: "Who usually sits on the panel?",
  panelTypes: [
    { value: "colleagues", label: "People of the house", hint: "not trained" },
    { value: "trained", label: "Trained assessors", hint: "they describe and measure" },
    { value: "consumers", label: "Recruited consumers", hint: "only they speak for more than this panel" },
  ] as const,
  otherAlpha: (alpha: number) => `${percent(alpha)}: ${risk(alpha)}`,
  cautions: "Cautions",
  cautionsHint:
    "Clean hands and choking apply to every tasting. Tick what else applies here always; each study asks that it be read.",
  codes: "Codes",
  properties: "Properties to be rated",
  propertiesHint:
    "A property that is described once can be used in every study, in the same words. A new study begins with those that are marked for it; the others can be picked in its plan.",
  none: "No property is described yet.",

  property: {
    unnamed: "A property without a name",
    name: "Name, as the report has it",
    nameHint: "Juiciness",
    definition: "What it means here, for the panelists",
    low: "Words at the low end, left",
    high: "Words at the high end, right",
    moment: "When is it judged?",
    starts: "A new study begins with this property",
    add: "Add a property",
    remove: (name: string) => `Remove ${name || "this property"}`,
    removed: (name: string) => `Removed ${name ? `\u201c${name}\u201d` : "a property"} from the list.`,
    full: (most: number) => `The list holds ${most}${nb}properties. Remove one to add another.`,
    summary: (moments: readonly Moment[], starts: boolean) =>
      `${listed(moments.map((moment) => momentPhrase(moment, (seconds) => `${plural(seconds, "second", "seconds")} after the first bite`)))}${starts ? "; new studies begin with it" : ""}`,
  },

  picker: {
    heading: "From the kitchen\u2019s list",
    pick: "add",
    pickOf: (name: string) => `: ${name}`,
  },

  versions: {
    heading: (count: number) =>
      `These defaults were changed on ${plural(count, "device", "devices")} at the same time. You see the version that was written last.`,
    other: (name: string, at: string, differs: readonly KitchenField[]) =>
      `Another is from ${name}, ${organizer.dayAndTime(at)}. ${differs.length === 0 ? "It says the same." : `It differs in: ${listed(differs.map((field) => fields[field]))}.`}`,
    take: "Use that version",
    takeOf: (name: string) => `: the one from ${name}`,
    taken: "You see the other version now.",
    keep: "Keep what you see",
  },
};
