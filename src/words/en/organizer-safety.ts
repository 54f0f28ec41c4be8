import type { Allergen } from "../../model/allergen.ts";
import type { Caution } from "../../model/attribute.ts";
import { allergenNames } from "./allergens.ts";

/** Words of the plan's safety part: allergens, their declaration, cautions. */

/** Short enough for a sentence: without what stands in brackets. */
export const allergenShort = (allergen: Allergen): string => allergenNames[allergen].replace(/ \(.*\)$/, "");

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

export const safety = {
  law: "This app does not replace food law, your hygiene plan or medical advice. Local codes and the responsible person decide.",
  declaration: "Allergens of everything that is eaten",
  declarationHint:
    "Every panelist sees one list for all of it, the same for every tray, and stops if it concerns them.",
  of: { "warm-up": "the warm-up sample", cleanser: "the palate cleanser", carrier: "the carrier" } as Record<
    string,
    string
  >,
  carrier: "Is something served on or with the samples?",
  carrierOptions: [
    { value: "no", label: "No", hint: "" },
    { value: "yes", label: "Yes", hint: "bread, rice, a sauce, a broth" },
  ] as const,
  carrierWhat: "What is it?",
  carrierWhatHint: "The same for every sample. It is declared below like the samples.",
  allergen: "allergen",
  contains: "contains",
  mayContain: "may contain",
  us: "* also among the nine that US law names (of the cereals, wheat).",
  none: (name: string) => `Contains none of these: ${name}`,
  other: "Anything else to declare",
  undeclaredShort: "not declared yet",
  declare: (name: string) => `Declare ${name}`,
  complete: "I have checked the recipes: these declarations are complete and true",
  needsProducts: "Products come first: part 4 names them.",
  cautions: "Cautions",
  applies: (name: string) => `Applies: ${name.toLowerCase()}`,
  read: "Read, and taken care of",
  cautionTexts,
  edited: "After a change of ingredients this has to be confirmed again.",
  note: "Which allergy somebody has is stored nowhere. Who is concerned stops; the log says \u201cnot cleared\u201d and no more.",
  note2: "Lists: EU Regulation 1169/2011, Annex II; US FALCPA and FASTER Act. Both can change.",
};
