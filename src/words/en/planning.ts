import type { Caution } from "../../model/attribute.ts";
import type { OpenPart, PlanPart } from "../../model/open-part.ts";
import { chosenPercent } from "../number.ts";
import { rawWords } from "./raw.ts";

/** Names of a plan's parts, as headings and in lists. */
export const planPartNames: Record<PlanPart, string> = {
  question: "Question",
  method: "Method",
  people: "People",
  samples: "Samples",
  serving: "Serving",
  safety: "Safety",
};

const cautionNames: Record<Caution, string> = {
  hygiene: "hygiene",
  choking: "choking",
  undercooked: "undercooked or raw food",
  alcohol: "alcohol",
};

const ordinal = ["first", "second", "third", "fourth", "fifth", "sixth"];
const productName = (product: number, name: string): string =>
  name.trim() === "" ? `the ${ordinal[product] ?? `${product + 1}th`} product` : `“${name.trim()}”`;
export const numberWord = (count: number): string =>
  ["no", "one", "two", "three", "four", "five", "six"][count] ?? String(count);
const attributeFields = {
  name: (which: string) => `Give ${which} a name for the report, such as “Juiciness”.`,
  adjective: (which: string) => `Give the word that the question uses for ${which}, such as “juicy”.`,
  definition: (which: string) => `Write what ${which} means here, for the panelists.`,
  "low-anchor": (which: string) => `Give the word for the low end of ${which}.`,
  "high-anchor": (which: string) => `Give the word for the high end of ${which}.`,
} as const;

const propertyFields = {
  name: (which: string) => `Give ${which} a name for the report, such as “Juiciness”.`,
  comparative: (which: string) => `Give the word that the question uses for ${which}, such as “juicier”.`,
  definition: (which: string) => `Write what ${which} means here, for the panelists.`,
} as const;

const rankingFields = {
  name: "Give what is put in order a name for the report, such as “Juiciness”.",
  least: "Give the word for the low end of the order, such as “least juicy”.",
  most: "Give the word for the high end of the order, such as “most juicy”.",
  definition: "Write what the two ends of the order mean here, for the panelists.",
} as const;

/** One sentence for something a plan still lacks: what is open, and what to write there. */
export function openPartSentence(open: OpenPart): string {
  switch (open.what) {
    case "title":
      return "Give the study a title.";
    case "objective":
      return "Write the question that this study is to answer.";
    case "if-yes":
      return "Write what will be done if the answer is yes.";
    case "if-no":
      return "Write what will be done if that is not shown.";
    case "alpha":
      return "Choose the risk of being fooled by chance: more than 0, at most 50 %.";
    case "goal":
      return "This method can show a difference, not likeness. Choose to show a difference, or another method.";
    case "share-sought":
      return "Choose the share of people who can tell that the plan should be able to find.";
    case "people":
      return "Say how many people will taste: at least one.";
    case "too-few-people":
      return open.people === 1
        ? `One person gives no verdict in this plan. Plan at least ${open.least} people; or, to show a difference where one answer is right, at least ${open.least} trays for that person.`
        : `${open.people} people give no verdict, whatever they answer. Plan at least ${open.least}.`;
    case "no-critical-number":
      return `With ${open.people === 1 ? "the answers of one person" : `${open.people} people`} no outcome would count at a risk of ${chosenPercent(open.risk)}. Plan more ${open.people === 1 ? "trays" : "people"}, or allow a higher risk.`;
    case "distance-sought":
      return "Choose the distance d\u2032 that the plan should be able to find.";
    case "properties":
      return "Name the property that is asked for, such as juiciness.";
    case "property-field":
      return propertyFields[open.field](open.name.trim() === "" ? `property ${open.property + 1}` : `“${open.name}”`);
    case "same-property":
      return `“${open.name}” is asked for twice. Change it, or remove one.`;
    case "stopping":
      return "This plan cannot end early: that takes one question in which somebody is right, one tray a person, a difference to be shown that not everybody tells, and at most 2,000 people. Let it go on until everybody has answered.";
    case "look-numbers":
      return `Looks lie after ${open.least} answers or more and before all ${open.people}, each later than the one before. Change the numbers.`;
    case "blank-norm":
      return `In the earlier study, ${open.none} of ${open.of} had no preference: that cannot be. Correct the two numbers, or leave the study out.`;
    case "repeats":
      return "This method has one tray a person. Plan more people, or another method.";
    case "repeats-in-blocks":
      return "Several trays a person go with trays that hold all of the products. Put all of them on each tray, or plan one tray a person.";
    case "reference":
      return "Say which product is the reference.";
    case "expected":
      return `Say which product is expected to have more ${open.name.trim() === "" ? "of the property" : `of “${open.name.trim()}”`}.`;
    case "one-expected":
      return "The trays hold the product that is expected to have more once, and the other twice. Expect the same product for every property, or ask in studies of their own.";
    case "sessions":
      return `${open.repeats} trays a person, one in each session, take ${open.repeats} sessions; the waves name ${open.sessions}. Give waves of one session the same name.`;
    case "people-in-session":
      return `The waves of ${open.session.trim() === "" ? "the session without a name" : `“${open.session.trim()}”`} serve ${open.inWaves}, the plan says ${open.planned}. Everybody comes to each session: make the two agree.`;
    case "attributes":
      return "Name at least one property to be rated.";
    case "attribute-field":
      return attributeFields[open.field](open.name.trim() === "" ? `property ${open.attribute + 1}` : `“${open.name}”`);
    case "same-attribute":
      return `“${open.name}” is asked twice at the same moment. Change the moment, or remove one.`;
    case "mixed-clocks":
      return `“${open.name}” counts chews, and another moment counts seconds: nobody knows which comes first. Use one of the two in a study.`;
    case "same-anchors":
      return `The end words of “${open.name}” are the same. Give the line two different ends.`;
    case "step-label":
      return `Write the words of step ${open.step + 1} of ${open.name.trim() === "" ? `property ${open.attribute + 1}` : `“${open.name}”`}.`;
    case "same-labels":
      return `Two steps of “${open.name}” say the same. Give each its own words, or none.`;
    case "first-just-right":
      return `“${open.name}” is rated for being just right, and the verdict cannot be about that: too little and too much would cancel out. Put another property first.`;
    case "just-right-moments":
      return `“${open.name}” is rated for being just right at several moments. Leave it one moment.`;
    case "ranking-field":
      return rankingFields[open.field];
    case "same-ends":
      return "The two ends of the order are the same. Give it two different ends.";
    case "predicted-order":
      return "The order you expect has to name each product once. Complete it, or expect none.";
    case "balance-step":
      return "Say which step the balance reads: its smallest one in grams, such as 0.01.";
    case "tolerance":
      return `A portion of ${open.portion} g may not be off by as much as itself. Allow less.`;
    case "one-chewer":
      return `One person alone takes at least ${open.least} trays, each with every product.`;
    case "control":
      return "The control is no product of this plan any more. Name another, or none.";
    case "beside-control":
      return "Beside the control there have to be two products to compare.";
    case "portion":
      return "Say how many grams a portion has: it is weighed before and after.";
    case "products":
      return open.least === open.most
        ? `This method compares ${numberWord(open.least)} products; the plan has ${open.count === 0 ? "none" : open.count}.`
        : `This method compares ${numberWord(open.least)} to ${numberWord(open.most)} products in a sitting; the plan has ${open.count === 0 ? "none" : open.count}.`;
    case "product-name":
      return `Name ${productName(open.product, open.name)}.`;
    case "product-preparation":
      return `Write how ${productName(open.product, open.name)} is prepared, up to the cup.`;
    case "window":
      return "The food is as it should be until a time before it begins to be so. Change one of the two minutes.";
    case "blank-preparations":
      return "In a blank study every cup holds one food. Give all products one preparation.";
    case "same-name":
      return `Two products are named “${open.name}”. Give them different names.`;
    case "comparison-reference":
      return "Say which product the others are held against.";
    case "comparison-pairs":
      return "Name at least one pair of products to be compared.";
    case "comparison-pair":
      return `Pair ${open.pair + 1} needs two different products, and must not be named twice.`;
    case "factor-words":
      return "Name both factors and their two levels each, all different.";
    case "factor-cells":
      return "Two factors need four products, one for each pair of levels.";
    case "looks":
      return "Answer whether the samples can be told apart by looks.";
    case "masking":
      return "Write how the looks are masked.";
    case "waves":
      return "Plan at least one wave: when it starts, and how many people it serves.";
    case "wave-start":
      return `Say when wave ${open.wave + 1} begins.`;
    case "wave-people":
      return `Wave ${open.wave + 1} has no people. Give it some, or remove it.`;
    case "people-in-waves":
      return `The waves serve ${open.inWaves}, the plan says ${open.planned}. Make the two agree.`;
    case "batch":
      return `Name a batch of ${productName(open.product, open.name)} for wave ${open.wave + 1}.`;
    case "warm-up":
      return "Write what is served as the warm-up sample.";
    case "raw-uneven":
      return rawWords.uneven;
    case "server":
      return "Answer whether whoever carries the trays knows which code is which.";
    case "declaration":
      return `Declare the allergens of ${open.product === null ? `the ${open.of}` : productName(open.product, open.name)}.`;
    case "declarations-complete":
      return "Confirm that the allergen declarations are complete.";
    case "carrier":
      return "Answer whether something is served on or with the samples.";
    case "carrier-what":
      return "Write what is served on or with the samples.";
    case "cooking-limit":
      return "Choose the limit of cooking that applies to this food, or say that none does.";
    case "responsible":
      return "Name who answers for serving raw or undercooked food.";
    case "served":
      return "Write what people are told that they will taste.";
    case "contact":
      return "Write whom people can turn to with questions.";
    case "caution":
      return `Read and confirm the caution on ${cautionNames[open.caution]}.`;
  }
}
