/**
 * The allergens that food law names, as fixed words for the declaration.
 *
 * EU: Regulation 1169/2011 Annex II, 14 groups; US: 9 major allergens (FALCPA 2004, FASTER Act 2021). Lists as
 * given in a university overview and law-firm notes; both can change: local codes prevail, and free text stands beside.
 */
export const allergens = [
  "gluten-cereals",
  "crustaceans",
  "egg",
  "fish",
  "peanut",
  "soy",
  "milk",
  "tree-nuts",
  "celery",
  "mustard",
  "sesame",
  "sulfites",
  "lupin",
  "molluscs",
] as const;
export type Allergen = (typeof allergens)[number];

/** Those of the list that US law names too (wheat stands under gluten cereals). */
export const usMajorAllergens: readonly Allergen[] = [
  "milk",
  "egg",
  "fish",
  "crustaceans",
  "tree-nuts",
  "peanut",
  "gluten-cereals",
  "soy",
  "sesame",
];
