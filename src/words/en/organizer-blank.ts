/** Words of blank studies: every cup holds one product, and it must come out at chance. */
export const blankWords = {
  make: "Make a blank study of this",
  makeHint: "Every cup holds one product. It shows whether labels, wording or serving give anything away.",
  note: "Blank study: every cup holds one product, whatever its letter. It must come out at chance.",
  kitchen: "Blank study: fill every cup with the one product, whatever its letter.",
  badge: "blank study",
  plan: {
    title: (of: string) => `Blank: ${of === "" ? "untitled study" : of}`,
    standIn: (name: string, at: number) =>
      `${name.trim() || "the product"} (as ${String.fromCharCode(65 + at)})`.slice(-300),
    objective: "Do cups that all hold one product come out at chance?",
    ifYes: "Find what gives cups away, and run another blank study.",
    ifNo: "Go on with the study that this one tries out.",
  },
  rehearsal: {
    lead: "Every cup holds one product, so nobody can tell: a blank study that finds a difference has cried wolf. Play it to see how often chance alone does that.",
    picture: (wrongly: number) => `Of 100 such studies, dark squares found a difference: ${wrongly}.`,
  },
};
