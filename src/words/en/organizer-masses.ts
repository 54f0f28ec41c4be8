import { organizer } from "./organizer.ts";
import { named } from "./phrases.ts";

/** The page on which masses are put beside the answers of a study. */
export const massesWords = {
  heading: "Masses beside the answers",
  lead: "What was weighed can stand beside what people perceived: in one table of the report, each difference with its own interval. Nothing is put together into one figure.",
  copy: "The study keeps a copy as it is now. What is changed elsewhere later does not change the report.",
  now: (count: number, at: string) =>
    `${count === 1 ? "One set of masses stands" : `${count} sets of masses stand`} beside the answers, noted ${organizer.dayAndTime(at)}.`,
  nowNone: "No masses stand beside the answers.",
  openKey: "The key is open: the report will say that the masses were added after that.",
  others: "Another device noted masses at the same time. The report shows both; what you note now replaces both.",
  none: "There are no masses yet: a weighing ledger lies in a claim, and chewed portions are a study of their own.",
  toClaims: "Claims",
  which: "Which masses",
  ledger: (claim: string, measure: string) => `Weighing ledger of ${named(claim)}${measure ? `: ${measure}` : ""}`,
  portions: (study: string) => `Chewed portions of ${named(study)}`,
  title: (claim: string, measure: string) => (measure ? `${claim}: ${measure}` : claim),
  is: (name: string) => `${named(name)} is`,
  noProduct: "no product of this study",
  tooFew: "At least two of its products have to be products of this study.",
  submit: "Put them beside the answers",
  submitNone: "Show no masses",
  done: "Noted. The report shows it once the key is open.",
  action: "Masses beside the answers",
};
