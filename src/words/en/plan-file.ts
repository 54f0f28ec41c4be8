import { listed } from "./organizer.ts";

/** Words of plans as files: writing one, beginning with one, and what a file should have said. */
export const planFileWords = {
  save: "Plan as a file",
  saveHint: "Text that people can read and change; no codes, no key.",
  fileName: (title: string) =>
    `${
      title
        .replace(/[^\p{L}\p{N}]+/gu, "-")
        .replace(/^-|-$/g, "")
        .toLowerCase() || "study"
    }-plan.json`,
  begin: "Begin with a plan from a file",
  beginHint: "Choose it, or drop it on this page.",
  drop: "Let go to begin a study with this plan.",
  tooLarge: (name: string) =>
    `${name} is too large to be a plan. Choose a file that was saved as \u201cPlan as a file\u201d.`,
  unreadable: (name: string) => `${name} could not be read. Choose it again; nothing was changed.`,
  several: "Drop one file at a time.",
  nothing: "Nothing was begun, and the file is unchanged. Correct it and choose it again.",
  expected: {
    fields: "a plan: an object with people and products",
    people: "a whole number of people, at least 1",
    product: (names: readonly string[]) =>
      names.length === 0
        ? "left out: the file names no products"
        : `one of the products, ${listed(names.map((name, at) => (name.trim() === "" ? `#${at + 1}` : name)))}`,
  },
};
