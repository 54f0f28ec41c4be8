import type { PlanPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { sizeFigures } from "./plan-summary.ts";

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
      return [planWords.method.only];
    case "people": {
      const { needed, fooled } = sizeFigures(plan);
      const words = planWords.people;
      return [
        ...(needed === null ? [] : [words.needed(plan.people, needed, fooled)]),
        words.jump,
        words.shareNote,
        words.sparesNote,
        words.source,
      ];
    }
    case "samples":
      return [planWords.samples.notePreparation, planWords.samples.note];
    case "serving":
      return [planWords.serving.batchesNote, planWords.samples.noteBatch, planWords.serving.note];
    case "safety":
      return [planWords.safety.note, planWords.safety.note2];
  }
}
