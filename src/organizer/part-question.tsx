import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { AskedQuestions } from "./asked-questions.tsx";
import { TextField } from "./fields.tsx";
import type { Draft } from "./use-draft.ts";

/** Part 1: the question, and what hangs on it. */
export function PartQuestion({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const words = planWords.question;
  const set = (change: Partial<Plan>) => edit((before) => ({ ...before, ...change }));
  return (
    <>
      <TextField
        id="question-title"
        label={words.title}
        hint={words.titleHint}
        value={plan.title}
        onInput={(title) => set({ title })}
      />
      <TextField
        id="question-objective"
        label={words.objective}
        hint={words.objectiveHint}
        rows={2}
        value={plan.objective}
        onInput={(objective) => set({ objective })}
      />
      <div class="pair">
        <TextField
          id="question-if-yes"
          label={words.ifYes}
          rows={2}
          value={plan.ifYes}
          onInput={(ifYes) => set({ ifYes })}
        />
        <TextField
          id="question-if-no"
          label={words.ifNo}
          rows={2}
          value={plan.ifNo}
          onInput={(ifNo) => set({ ifNo })}
        />
      </div>
      <AskedQuestions draft={draft} />
      <TextField
        id="question-stands-for"
        label={words.standsFor}
        hint={words.standsForHint}
        value={plan.standsFor}
        onInput={(standsFor) => set({ standsFor })}
      />
    </>
  );
}
