import type { Allergen } from "../../model/allergen.ts";

/** The allergens as tablets, papers and the plan name them: the same words wherever somebody reads them. */
export const allergenNames: Record<Allergen, string> = {
  "gluten-cereals": "cereals with gluten (wheat, rye, barley, oats)",
  crustaceans: "crustaceans",
  egg: "egg",
  fish: "fish",
  peanut: "peanut",
  soy: "soy",
  milk: "milk (including lactose)",
  "tree-nuts": "tree nuts",
  celery: "celery",
  mustard: "mustard",
  sesame: "sesame",
  sulfites: "sulfites",
  lupin: "lupin",
  molluscs: "mollusks",
};
