import type { AnswerWord, Method } from "../model/method.ts";

/**
 * What is right, method by method: the one place in the analysis that says so. A further method is one more entry here
 * (and one in `analysis/method`).
 */

/** What was served on a tray, in the trade's letters: A = first product of the plan, "?" = one that it does not have. */
export type TrayOrder = {
  /** The coded samples in serving order. */
  letters: string;
  /** What was in the uncoded cup; null where there is none. */
  reference: string | null;
  /** The product that was to have more of the property asked for; null where none was named. */
  expected: string | null;
};

/**
 * Where the right sample stands, from 1; of a tetrad: the partner of the first. Null: the tray does not hold what the
 * method serves.
 */
export type RightPlace = (order: TrayOrder) => number | null;

export const rightPlaces: Partial<Record<Method, RightPlace>> = {
  triangle: ({ letters }) => {
    const odd = oddPlace(letters);
    return odd === null ? null : odd + 1;
  },
  "duo-trio": ({ letters, reference }) => (isPair(letters) ? onlyPlace(letters, reference) : null),
  "paired-difference": ({ letters, expected }) => (isPair(letters) ? onlyPlace(letters, expected) : null),
  "three-alternative": ({ letters, expected }) => (oddPlace(letters) === null ? null : onlyPlace(letters, expected)),
  tetrad: ({ letters }) => ([...letters].sort().join("") === "AABB" ? letters.indexOf(letters.charAt(0), 1) + 1 : null),
};

/** Methods in which nobody is right by a known chance: which trays are unlike (null: no tray of the method), and how it is said. */
export type Kinds = {
  unlike: (order: TrayOrder) => boolean | null;
  told: AnswerWord;
  not: AnswerWord;
};

export const kindsOf: Partial<Record<Method, Kinds>> = {
  "same-different": {
    unlike: ({ letters }) => (/^[AB]{2}$/.test(letters) ? isPair(letters) : null),
    told: "different",
    not: "same",
  },
  "a-not-a": {
    unlike: ({ letters, reference }) =>
      /^[AB]$/.test(letters) && reference !== null && reference !== "?" ? letters !== reference : null,
    told: "not-a",
    not: "a",
  },
};

/** One sample of each product. */
export const isPair = (letters: string): boolean => letters === "AB" || letters === "BA";

/** Where the odd letter of a triangle order stands, from 0; null when it is no triangle. Example: oddPlace("AAB") // 2 */
export function oddPlace(letters: string): number | null {
  const [first, second, third] = letters;
  if (letters.length !== 3 || letters.includes("?")) return null;
  if (first === second && third !== first) return 2;
  if (first === third && second !== first) return 1;
  return second === third && first !== second ? 0 : null;
}

/** Where the one sample of a product stands, from 1; null where there is none, or more than one. */
function onlyPlace(letters: string, product: string | null): number | null {
  const at = product === null ? -1 : letters.indexOf(product);
  return at < 0 || letters.includes(product ?? "", at + 1) ? null : at + 1;
}
