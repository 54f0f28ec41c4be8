import { useState } from "preact/hooks";
import { type Claim, leastExplanations, mostExplanations } from "../model/claim.ts";
import { newId } from "../model/id.ts";
import { focusSoon } from "../ui/focus.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { changeExplanation, withExplanation, withoutExplanation } from "./claim-edit.ts";
import { TextField } from "./fields.tsx";
import type { ClaimDraft } from "./use-claim.ts";

type Props = { draft: ClaimDraft };

/** The claim in the lead's words, what is compared, who holds it, and what was expected. */
export function ClaimFields({ draft }: Props) {
  const words = claimWords.claim;
  const expectation = claimWords.expectation;
  const { claim } = draft;
  const set = (change: Partial<Claim>): void => draft.edit((before) => ({ ...before, ...change }));
  return (
    <>
      <section>
        <h2>{words.heading}</h2>
        <TextField id="claim-title" label={words.title} value={claim.title} onInput={(title) => set({ title })} />
        <TextField
          id="claim-words"
          label={words.words}
          hint={words.wordsHint}
          rows={3}
          value={claim.words}
          onInput={(typed) => set({ words: typed })}
        />
        <div class="pair">
          <TextField
            id="claim-second"
            label={words.second}
            hint={words.secondHint}
            value={claim.second}
            onInput={(second) => set({ second })}
          />
          <TextField
            id="claim-first"
            label={words.first}
            hint={words.firstHint}
            value={claim.first}
            onInput={(first) => set({ first })}
          />
        </div>
      </section>
      <section>
        <h2>{expectation.heading}</h2>
        <TextField
          id="claim-held-by"
          label={expectation.heldBy}
          value={claim.heldBy}
          onInput={(heldBy) => set({ heldBy })}
        />
        <TextField
          id="claim-expected"
          label={expectation.expected}
          rows={3}
          value={claim.expected}
          onInput={(expected) => set({ expected })}
        />
        <DayField value={claim.expectedOn} onDay={(expectedOn) => set({ expectedOn })} />
      </section>
    </>
  );
}

const isDay = (text: string): boolean =>
  text === "" || (/^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(`${text}T00:00:00Z`)));

/** A day as it is written. What is no day stays on the screen with a sentence; the last good one stays in the claim. */
function DayField({ value, onDay }: { value: string; onDay: (day: string) => void }) {
  const words = claimWords.expectation;
  const [typed, setTyped] = useState(value);
  const text = typed.trim();
  const good = isDay(text);
  // another version, or an undo, changed it
  const shown = good && text !== value ? value : typed;
  return (
    <TextField
      id="claim-expected-on"
      label={words.on}
      hint={words.onHint}
      chars={12}
      value={shown}
      problem={good ? null : words.onWrong}
      onInput={(next) => {
        setTyped(next);
        if (isDay(next.trim())) onDay(next.trim());
      }}
    />
  );
}

/** The claim's own explanation and its rivals. */
export function Explanations({ draft }: Props) {
  const words = claimWords.explanation;
  const { explanations } = draft.claim;
  const full = explanations.length >= mostExplanations;
  const add = (): void => {
    const id = newId();
    draft.edit((before) => withExplanation(before, id));
    focusSoon(`explanation-${id}-name`);
  };
  return (
    <section>
      <h2>{words.heading}</h2>
      <p class="fine">{words.hint}</p>
      {explanations.map(({ id }, at) => (
        <ExplanationFields key={id} draft={draft} id={id} at={at} />
      ))}
      <p class="after-row">
        <button
          type="button"
          id="explanation-add"
          aria-disabled={full ? "true" : undefined}
          onClick={() => full || add()}
        >
          {words.add}
        </button>
        {full ? <span class="fine">{words.full(mostExplanations)}</span> : null}
      </p>
    </section>
  );
}

function ExplanationFields({ draft, id, at }: Props & { id: string; at: number }) {
  const words = claimWords.explanation;
  const { explanations } = draft.claim;
  const explanation = explanations[at];
  if (!explanation) return null;
  const change = (what: Partial<typeof explanation>): void =>
    draft.edit((before) => changeExplanation(before, id, what));
  const name = explanation.name.trim() || words.unnamed(at);
  return (
    <fieldset class="field group">
      <legend>{at === 0 ? words.own : words.rival(at)}</legend>
      <TextField
        id={`explanation-${id}-name`}
        label={words.name}
        value={explanation.name}
        onInput={(typed) => change({ name: typed })}
      />
      <TextField
        id={`explanation-${id}-words`}
        label={words.words}
        rows={2}
        value={explanation.words}
        onInput={(typed) => change({ words: typed })}
      />
      {at > 0 && explanations.length > leastExplanations ? (
        <button
          type="button"
          class="quiet"
          onClick={() => {
            draft.edit((before) => withoutExplanation(before, id), words.removed(name));
            focusSoon("explanation-add");
          }}
        >
          {words.remove(name)}
        </button>
      ) : null}
    </fieldset>
  );
}
