import { useMemo, useState } from "preact/hooks";
import { previewStopping } from "../analysis/stopping-preview.ts";
import { mayStopEarly } from "../design/open-method.ts";
import type { Plan } from "../model/plan.ts";
import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { readLooks, withStopping } from "./plan-choice.ts";
import type { Draft } from "./use-draft.ts";

/** What most plans leave as it is. */
export function More({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { confidence: level, stopping } = plan;
  const other = { value: level, label: words.otherConfidence(level), hint: "" };
  const usual = words.confidences.some(({ value }) => value === level);
  return (
    <details open={stopping.rule !== "fixed"}>
      <summary>{words.more}</summary>
      <Choice
        id="method-confidence"
        legend={words.confidence}
        hint={words.confidenceHint}
        options={usual ? words.confidences : [...words.confidences, other]}
        value={level}
        onChange={(confidence) => edit((before) => ({ ...before, confidence }))}
      />
      {mayStopEarly(plan) || stopping.rule !== "fixed" ? <Stopping draft={draft} /> : null}
    </details>
  );
}

function Stopping({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { stopping } = plan;
  return (
    <>
      <Choice
        id="method-stopping"
        legend={words.stopping}
        hint={words.stoppingHint}
        options={words.stoppingOptions}
        value={stopping.rule}
        onChange={(rule) => edit((before) => withStopping(before, rule))}
      />
      {stopping.rule === "looks" ? <Looks draft={draft} at={stopping.at} /> : null}
      {stopping.rule === "sequential" ? (
        <NumberField
          id="method-stopping-beta"
          label={words.missBeta}
          unit="%"
          value={stopping.beta * 100}
          low={0.1}
          high={50}
          onValue={(beta) =>
            beta !== null && edit((before) => ({ ...before, stopping: { rule: "sequential", beta: beta / 100 } }))
          }
        />
      ) : null}
      {mayStopEarly(plan) && stopping.rule !== "fixed" ? <Preview plan={plan} /> : null}
    </>
  );
}

/** Numbers with commas between. What is typed stays as typed while it says the same as the plan. */
function Looks({ draft: { edit }, at }: { draft: Draft; at: number[] }) {
  const [typed, setTyped] = useState(at.join(", "));
  const same = readLooks(typed).join() === at.join();
  return (
    <TextField
      id="method-looks"
      label={words.lookAt}
      hint={words.lookAtHint}
      value={same ? typed : at.join(", ")}
      chars={12}
      onInput={(text) => {
        setTyped(text);
        const looks = readLooks(text);
        if (looks.length > 0) edit((before) => ({ ...before, stopping: { rule: "looks", at: looks } }));
      }}
    />
  );
}

/** The looks that are shown of a rule that may look after every answer. */
const shownLooks = 6;

/** What the rule asks and costs; nothing while its numbers do not fit the plan, which the open points then say. */
function previewOf(plan: Plan) {
  try {
    return previewStopping(plan);
  } catch {
    return null;
  }
}

function Preview({ plan }: { plan: Plan }) {
  const { method, alpha, people, stopping, discriminatorShareSought, dPrimeSought } = plan;
  const preview = useMemo(
    () => previewOf(plan),
    [method, alpha, people, stopping, discriminatorShareSought, dPrimeSought],
  );
  if (preview === null) return <p class="note">{words.noPreview}</p>;
  const { looks, totalAlpha, power, expected } = preview;
  const every = Math.max(1, Math.ceil(looks.length / shownLooks));
  const shown = looks.filter((_, at) => (looks.length - 1 - at) % every === 0);
  return (
    <div class="note" aria-live="polite">
      <ul>
        {shown.map((look) => (
          <li key={look.judgments}>{words.asks(look)}</li>
        ))}
      </ul>
      <p>{words.total(totalAlpha, power)}</p>
      <p>{words.expects(expected.guessing, expected.sought)}</p>
    </div>
  );
}
