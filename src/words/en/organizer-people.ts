import { organizer, plural } from "./organizer.ts";
import { figure, inHundred, oneDecimal, percent } from "./organizer-figures.ts";

/** Words of the plan's people part: how many, and what so many can find. */
const { nb } = organizer;

const peopleOf = (count: number): string => plural(count, "person", "people");
const glaringly = "before it is found in 80 of 100 studies.";

/** "65 to 35": the split that goes with a lead of the one over the other. */
export const splitText = (lead: number): string => `${figure(50 + 50 * lead)} to ${figure(50 - 50 * lead)}`;

/** What the number of people is held against. */
export type SizeWords = {
  share: string;
  shareSlider: string;
  finds: (count: number, chance: number, share: number) => string;
  never: (count: number) => string;
  glaring: (share: number) => string;
  needed: (count: number, needed: number, fooled: number) => string;
  picture: (share: number) => string;
  columns: { needed: string; finds: (share: number) => string; fooled: string };
  notes: readonly string[];
};

const difference: SizeWords = {
  share: "Share who can tell, to be found",
  shareSlider: "Share who can tell, by slider",
  finds: (count, chance) => `With ${peopleOf(count)} this plan finds it in ${inHundred(chance)} such studies.`,
  never: (count) => `With ${peopleOf(count)} no result can count, not even if all are right.`,
  glaring: (share) =>
    `This panel finds only a glaring difference: ${percent(share)} of people must be able to tell ${glaringly}`,
  needed: (count, needed, fooled) =>
    `${count}${nb}people need ${needed}${nb}right. Fooled by chance: ${oneDecimal(fooled * 100)} in 100.`,
  picture: (share) =>
    `Chance of finding ${percent(share)} who can tell, in 100 such studies, by number of people. Your choice is the large dot.`,
  columns: {
    needed: "needed right",
    finds: (share) => `finds ${percent(share)}`,
    fooled: "fooled by chance",
  },
  notes: [
    `As a rule of thumb, fewer than 25${nb}% who can tell is a small difference, more than 35${nb}% a large one.`,
  ],
};

const likeness: SizeWords = {
  ...difference,
  finds: (count, chance, limit) =>
    `If nobody can tell, ${peopleOf(count)} show that fewer than ${percent(limit)} can in ${inHundred(chance)} such studies.`,
  never: (count) => `With ${peopleOf(count)} no result can show likeness within this limit, not even if none is right.`,
  needed: (count, most, fooled) =>
    `${count}${nb}people show it with ${most}${nb}right or fewer. Called alike though the limit can tell: ${oneDecimal(fooled * 100)} in 100.`,
  picture: (limit) =>
    `Chance of showing that fewer than ${percent(limit)} can tell, if nobody can, in 100 such studies, by number of people. Your choice is the large dot.`,
  columns: {
    needed: "at most right",
    finds: () => "shows likeness",
    fooled: "wrongly",
  },
  notes: [
    "Showing likeness takes more people than showing a difference: the proof lies in few right answers, not in many.",
  ],
};

const preference: SizeWords = {
  share: "Larger side of the split to be found, of 100 who choose",
  shareSlider: "Larger side of the split, by slider",
  finds: (count, chance, lead) =>
    `With ${peopleOf(count)} who choose, this plan finds a split of ${splitText(lead)} in ${inHundred(chance)} such studies.`,
  never: (count) => `With ${peopleOf(count)} no result can count, not even if all choose the same.`,
  glaring: (lead) =>
    `This panel finds only a strong lead: people must be split ${splitText(Math.ceil(lead * 50) / 50)} ${glaringly}`,
  needed: (count, needed, fooled) =>
    `${count}${nb}people who choose need ${needed}${nb}on one side. Fooled by chance, either way: ${oneDecimal(fooled * 100)} in 100.`,
  picture: (lead) =>
    `Chance of finding a split of ${splitText(lead)}, in 100 such studies, by number of people who choose. Your choice is the large dot.`,
  columns: {
    needed: "needed on one side",
    finds: (lead) => `finds ${splitText(lead)}`,
    fooled: "fooled by chance",
  },
  notes: ["People who say that they have no preference do not choose: seat as many more as you expect of them."],
};

/** Same-different and A-not-A, which have no share who can tell. */
const distance: SizeWords = {
  ...difference,
  share: "Distance d\u2032 to be found",
  shareSlider: "Distance, by slider",
  never: (count) => `With ${peopleOf(count)} no result can count.`,
  glaring: (dPrime) => `This panel finds only a glaring difference, d\u2032${nb}${figure(dPrime)}, ${glaringly}`,
  needed: (count, needed, fooled) =>
    `If half of all ${count}${nb}answers say that there is a difference, ${needed}${nb}of those must be true ones. Fooled by chance: at most ${oneDecimal(fooled * 100)} in 100.`,
  picture: (dPrime) =>
    `Chance of finding a distance d\u2032 of ${figure(dPrime)}, in 100 such studies, by number of people. Your choice is the large dot.`,
  columns: {
    needed: "needed, if half see one",
    finds: (dPrime) => `finds d\u2032${nb}${figure(dPrime)}`,
    fooled: "fooled by chance",
  },
  notes: ["Half of the people get each kind of tray. The figures hold for people who lean to neither answer."],
};

export const people = {
  people: "People you can seat",
  peopleSlider: "People, by slider",
  spares: "Spare trays",
  sparesNote:
    "Spare trays are for dropped samples and for people who turn up. They are drawn at lock and served in order.",
  by: { difference, likeness, preference, distance },
  ofHundredWhoChoose: "of 100",
  other: (count: number, chance: number) => `With ${count}: ${inHundred(chance).replace(" of 100", "")}.`,
  tooFew: (count: number, least: number) =>
    `${plural(count, "person gives", "people give")} no verdict, whatever they answer. Plan at least ${least}.`,
  tooMany:
    "No kitchen seats the people that this would take. Look for a larger difference, or ask a narrower question.",
  jump: "Why the dots jump: the number needed is whole, so one more person can make it harder for a moment.",
  source: "Source: exact binomial.",
  axis: "people",
  asTable: "The picture as a table",
  columnPeople: "people",
  none: "none",
  ofHundred: inHundred,
  chosen: "your choice",
};
