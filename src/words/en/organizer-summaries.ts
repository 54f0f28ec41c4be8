import type { Allergen } from "../../model/allergen.ts";
import { shapeOf } from "../../model/method.ts";
import type { Plan } from "../../model/plan.ts";
import { drawsLine } from "../../model/steps.ts";
import { listed, organizer, plural } from "./organizer.ts";
import { figure, inHundred, percent, risk } from "./organizer-figures.ts";
import { formShort } from "./organizer-form.ts";
import { method } from "./organizer-method.ts";
import { splitText } from "./organizer-people.ts";
import { ranking } from "./organizer-ranking.ts";
import { allergenShort } from "./organizer-safety.ts";
import { scale } from "./organizer-scale.ts";

/** One sentence for each part of a plan, as it stands. */
const { nb } = organizer;

const looksWords = {
  alike: "alike by looks",
  masked: "different by looks, masked",
  differ: "different by looks, not masked",
} as const;

/** "4 waves of 6 people at 11:15 and 12:15", or each wave with its people where they differ. */
function wavesText({ waves }: Plan): string {
  const starts = waves.map((wave) => wave.starts.trim() || "a time not set yet");
  const people = new Set(waves.map((wave) => wave.people));
  const [each = 0] = people;
  if (people.size > 1) {
    return listed(waves.map((wave, at) => `${plural(wave.people, "person", "people")} at ${starts[at]}`));
  }
  const size = plural(each, "person", "people");
  if (waves.every(({ starts: at }) => at.trim() === "")) {
    return waves.length === 1
      ? `One wave of ${size}, time not set yet`
      : `${waves.length} waves of ${size}, times not set yet`;
  }
  return waves.length === 1
    ? `One wave of ${size} at ${starts[0]}`
    : `${waves.length} waves of ${size}, at ${listed(starts)}`;
}

function productNames({ products }: Plan): string {
  if (products.every(({ name }) => name.trim() === ""))
    return `${plural(products.length, "product", "products")}, not named yet`;
  return listed(products.map(({ name }) => (name.trim() === "" ? "one not named yet" : `\u201c${name.trim()}\u201d`)));
}

function methodText(plan: Plan): string {
  const fooled = `fooled by chance at most ${risk(plan.alpha)}`;
  if (plan.method === "paired-preference") {
    return `Paired preference; ${method.noPreference[plan.noPreference].short}; ${fooled}`;
  }
  if (plan.method === "line-scale") {
    const { lengthMm, attributes } = plan.scale;
    const line = drawsLine(attributes) ? `, line of ${scale.millimeters(lengthMm)}` : "";
    return `${method.names[plan.method]}${line}: ${propertiesText(plan)}; ${fooled}`;
  }
  if (plan.method === "ranking") return `${ranking.summary(plan)}; ${fooled}`;
  const name = method.names[plan.method];
  const asked = shapeOf(plan.method).property
    ? `: ${listed(plan.properties.map((property) => property.name.trim() || "a property without a name")) || "nothing asked yet"}`
    : "";
  if (isTwoSided(plan)) return `${name}${asked}, more in either product; ${fooled}`;
  if (asked !== "" && !likeness(plan)) return `${name}${asked}; ${fooled}`;
  if (!likeness(plan)) return `${name}, to show a difference; ${fooled}`;
  const { limit, dPrime, beta } = plan.similarity;
  const within =
    dPrime === null ? `fewer than ${percent(limit)} can tell` : `the distance is less than d′ ${figure(dPrime)}`;
  return `${name}, to show that ${within}; called alike wrongly at most ${risk(beta)}`;
}

function propertiesText({ scale: { attributes } }: Plan): string {
  if (attributes.length === 0) return "nothing to judge yet";
  // several moments are a list of their own, which "and" would run into the next property
  const moments = attributes.some(({ further }) => further.length > 0);
  const together = (each: string[]): string => (moments ? each.join("; ") : listed(each));
  return together(
    attributes.map(
      ({ name, form, moment, further, inFamily }, at) =>
        `${name.trim() || "a property without a name"}${formShort(form)} ${listed([moment, ...further.map((other) => other.moment)].map(scale.momentText))}${at > 0 && form.kind !== "just-right" ? scale.standing(inFamily) : ""}`,
    ),
  );
}

const likeness = (plan: Plan): boolean => shapeOf(plan.method).similarity && plan.goal === "similarity";

/** Answers that are words have no count that decides alone: it hangs on how many say so in all. */
const isKinds = ({ method }: Plan): boolean => ["same-different", "a-not-a"].includes(shapeOf(method).answer);
const isTwoSided = ({ method, sides }: Plan): boolean => shapeOf(method).sides === "either" && sides === "two";

function neededText(plan: Plan, needed: number): string {
  if (isKinds(plan)) return "an exact test of two shares decides";
  if (isTwoSided(plan)) return `${needed} must choose the same product`;
  if (plan.method === "paired-preference")
    return plan.noPreference === "not-offered"
      ? `${needed} must choose the same product`
      : `if all of them choose, ${needed} must choose the same product`;
  return likeness(plan) ? `at most ${needed} may be right` : `${needed} must be right`;
}

function chanceText(plan: Plan, chance: number): string {
  const found = `in ${inHundred(chance)} such studies.`;
  const sought = plan.discriminatorShareSought;
  if (plan.method === "paired-preference") return `Finds a split of ${splitText(sought)} ${found}`;
  if (plan.dPrimeSought !== null || isKinds(plan)) {
    if (!likeness(plan)) return `A distance d\u2032 of ${figure(plan.dPrimeSought ?? 1)} is found ${found}`;
  }
  if (isTwoSided(plan)) return `Finds a split of ${splitText(sought)} ${found}`;
  return likeness(plan)
    ? `Shows likeness, if nobody can tell, ${found}`
    : `Finds ${percent(sought)} who can tell ${found}`;
}

export const summaries = {
  question: (plan: Plan) =>
    [
      plan.objective.trim(),
      plan.ifYes.trim() && `If yes: ${plan.ifYes.trim()}`,
      plan.ifNo.trim() && `If no: ${plan.ifNo.trim()}`,
    ]
      .filter(Boolean)
      .map((text) => (/[.?!]$/.test(String(text)) ? text : `${text}.`))
      .join(" "),
  method: (plan: Plan) => `${methodText(plan)}.`,
  people: (plan: Plan, figures: { needed: number | null; chance: number } | null) => {
    const trays = plan.repeats > 1 ? `, ${plan.repeats} trays each` : "";
    const seats = `${plural(plan.people, "person", "people")}${trays}`;
    if (figures === null) return `${seats} and ${plural(plan.spares, "spare tray", "spare trays")}.`;
    if (figures.needed === null) return `${seats}: too few for any result to count.`;
    return `${seats} and ${plural(plan.spares, "spare tray", "spare trays")}; ${neededText(plan, figures.needed)}. ${chanceText(plan, figures.chance)}`;
  },
  samples: (plan: Plan) => {
    const names = productNames(plan);
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
          plan.place.trim() && `${plan.place.trim().replace(/\.$/, "")}.`,
          plan.serverKnowsKey === null
            ? ""
            : `Whoever carries the trays ${plan.serverKnowsKey ? "knows" : "does not know"} the key.`,
        ]
          .filter(Boolean)
          .join(" "),
  safety: (contains: readonly Allergen[], may: readonly Allergen[], other: readonly string[]) => {
    const has = [...contains.map(allergenShort), ...other];
    return [
      has.length === 0 ? "No allergen declared." : `Contains ${listed(has)}.`,
      may.length === 0 ? "" : `May contain ${listed(may.map(allergenShort))}.`,
    ]
      .filter(Boolean)
      .join(" ");
  },
};
