import { designMethod } from "../design/method.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { panel } from "../words/en/panel.ts";
import { Choice } from "./fields.tsx";
import type { Draft } from "./use-draft.ts";

/** Part 2: the method, what it can and cannot say, and the risk of being fooled by chance. */
export function PartMethod({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const words = planWords.method;
  const usual = words.alphaOptions.some(({ value }) => value === plan.alpha);
  const options = usual
    ? words.alphaOptions
    : [...words.alphaOptions, { value: plan.alpha, label: words.otherAlpha(plan.alpha), hint: "" }];
  return (
    <>
      <dl class="said">
        <dt>{words.name}</dt>
        <dd>
          <strong>{words.triangle}.</strong> {words.triangleIs}
        </dd>
        <dt>{words.goal}</dt>
        <dd>{words.difference}</dd>
        <dt>{words.yesTerm}</dt>
        <dd>{words.yes}</dd>
        <dt>{words.noTerm}</dt>
        <dd>{words.no}</dd>
      </dl>
      <Choice
        id="method-alpha"
        legend={words.alpha}
        hint={words.alphaHint}
        options={options}
        value={plan.alpha}
        onChange={(alpha) => edit((before) => ({ ...before, alpha }))}
      />
      <Preview method={plan.method} />
    </>
  );
}

/** The ballot's question as the tablet asks it, and nothing else of the tablet. */
function Preview({ method }: { method: Plan["method"] }) {
  const ballot = panel.ballots[designMethod(method).wording];
  return (
    <figure class="preview">
      <figcaption class="label">{planWords.method.preview}</figcaption>
      <blockquote>
        <p>{ballot?.ask}</p>
        <p class="fine">{panel.question.guess}</p>
      </blockquote>
    </figure>
  );
}
