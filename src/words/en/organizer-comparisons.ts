/** Which differences between products of a line scale are judged. */
export const comparisonWords = {
  legend: "Which differences are to be judged?",
  hint: "The test of all products together comes first; these are what it is followed by. Fixed at lock: every comparison that is looked for makes the others harder to show.",
  kinds: {
    "all-pairs": { label: "Every two products", hint: "" },
    reference: { label: "Each product against one of them", hint: "say, what is served today" },
    planned: { label: "Only some pairs", hint: "named beforehand" },
    "two-factors": {
      label: "Two factors at once",
      hint: "four products that are made by two choices, such as the process and whether looks are masked",
    },
  },
  reference: "The product that the others are held against",
  pair: (at: number) => `Pair ${at + 1}`,
  pairFirst: (at: number) => `Pair ${at + 1}: this product`,
  pairSecond: (at: number) => `Pair ${at + 1}: less this one`,
  notChosen: "not chosen yet",
  add: "Add a pair",
  remove: (at: number) => `Remove pair ${at + 1}`,
  removed: (at: number) => `Removed pair ${at + 1}.`,
  factorName: (at: number) => `${at === 0 ? "First" : "Second"} factor`,
  factorField: (at: number) => `Name of the ${at === 0 ? "first" : "second"} factor`,
  factorHint: (at: number) => (at === 0 ? "Such as: process" : "Such as: looks"),
  level: (factor: string, at: number) => `${factor.trim() || "Its"} ${at === 0 ? "first" : "second"} level`,
  levelHint: (factor: number, at: number) =>
    `Such as: ${
      [
        ["dry oven", "steam first"],
        ["seen", "masked"],
      ][factor]?.[at] ?? ""
    }`,
  cells: "Which levels has each product?",
  cell: (product: string, factor: string) => `${product}: ${factor}`,
  unnamedLevel: (at: number) => `level ${at + 1}, not named yet`,
  means:
    "Judged are: what the first factor does on average, what the second does, and whether the one depends on the other (their interaction). The interaction tells rival explanations apart: a difference that comes from looks alone is gone once they are masked.",
  /** On the page before lock. */
  locked: {
    term: "Differences judged",
    "all-pairs": () => "Every two products (adjusted together by Tukey's range).",
    reference: (name: string) => `Each product against ${name} (adjusted together after Dunnett).`,
    planned: (pairs: readonly string[]) => `${pairs.join("; ")} (adjusted after Holm).`,
    factors: (first: string, second: string) =>
      `${first} by ${second}: both main effects and the interaction (adjusted after Holm).`,
    less: (first: string, second: string) => `${first} less ${second}`,
    two: () => "The one difference between the two products.",
  },
};
