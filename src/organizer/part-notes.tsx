import { familyOf } from "../analysis/method.ts";
import { shapeOf } from "../model/method.ts";
import type { PlanPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { scaleSize } from "../words/en/organizer-scale-size.ts";
import { sizeFigures, sizeWords } from "./plan-summary.ts";

/** Notes for the margin, for the part that is open. */
export function partNotes(part: PlanPart | null, plan: Plan) {
  const lines = part === null ? [] : notesOf(part, plan);
  return lines.length === 0 ? null : lines.map((line) => <p key={line}>{line}</p>);
}

function notesOf(part: PlanPart, plan: Plan): string[] {
  switch (part) {
    case "question":
      return [planWords.question.note];
    case "method":
      return [...planWords.method.notes[plan.method]];
    case "people":
      return peopleNotes(plan);
    case "samples":
      return [planWords.samples.notePreparation, planWords.samples.note];
    case "serving":
      return [planWords.serving.batchesNote, planWords.samples.noteBatch, planWords.serving.note];
    case "safety":
      return [planWords.safety.note, planWords.safety.note2];
  }
}

const offersNone = ({ method, noPreference }: Plan): boolean =>
  method === "paired-preference" && noPreference !== "not-offered";

function peopleNotes(plan: Plan): string[] {
  const { jump, sparesNote, source } = planWords.people;
  if (plan.method === "ranking") return [sparesNote, planWords.ranking.source];
  const figures = sizeFigures(plan);
  if (shapeOf(plan.method).answer === "portions") return [sparesNote];
  if (figures === null) return [...scaleSize.notes, sparesNote, scaleSize.source];
  const { words } = sizeWords(plan);
  return [
    ...(figures.needed === null ? [] : [words.needed(plan.people, figures.needed, figures.fooled)]),
    jump,
    // of a pair the notes are about those who say that they have no preference
    ...(familyOf(plan.method, plan.sides) === "pair" && !offersNone(plan) ? [] : words.notes),
    sparesNote,
    source,
  ];
}
