import { shapeOf } from "../model/method.ts";
import { noPreferenceRules, type Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { panel } from "../words/en/panel.ts";
import { choiceQuestions } from "../words/en/panel-choice.ts";
import { wordingOf } from "./ballot-words.ts";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { PartScale } from "./part-scale.tsx";
import { withMethod } from "./plan-edit.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.method;

/** Part 2: the method, what it can and cannot say, its own rules, and the risk of being fooled by chance. */
export function PartMethod({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { method } = plan;
  const goal = method === "triangle" ? plan.goal : "difference";
  const { yes, no } = words.says[method][goal];
  return (
    <>
      <Choice
        id="method-method"
        legend={words.choose}
        hint={words.keeps}
        options={words.options}
        value={method}
        onChange={(chosen) => edit((before) => withMethod(before, chosen))}
      />
      {/* a plan from elsewhere may have a goal that its method cannot have: it is shown to be changed */}
      {method === "triangle" || plan.goal === "similarity" ? (
        <Choice
          id="method-goal"
          legend={words.goal}
          options={words.goals}
          value={plan.goal}
          onChange={(chosen) => edit((before) => ({ ...before, goal: chosen }))}
        />
      ) : null}
      <dl class="said">
        <dt>{words.howTerm}</dt>
        <dd>{words.is[method]}</dd>
        <dt>{words.yesTerm}</dt>
        <dd>{yes}</dd>
        <dt>{words.noTerm}</dt>
        <dd>{no}</dd>
      </dl>
      {goal === "similarity" ? <Likeness draft={draft} /> : <Alpha draft={draft} />}
      {method === "paired-preference" ? <NoPreferenceRule draft={draft} /> : null}
      {method === "line-scale" ? <PartScale draft={draft} /> : <Preview plan={plan} />}
    </>
  );
}

type Risk = { value: number; label: string; hint: string };

/** The usual risks, and the one that the plan has when it is another. */
const withOther = (usual: readonly Risk[], value: number): readonly Risk[] =>
  usual.some((option) => option.value === value)
    ? usual
    : [...usual, { value, label: words.otherAlpha(value), hint: "" }];

function Alpha({ draft: { plan, edit } }: { draft: Draft }) {
  return (
    <Choice
      id="method-alpha"
      legend={words.alpha}
      hint={words.alphaHint[plan.method]}
      options={withOther(words.alphaOptions, plan.alpha)}
      value={plan.alpha}
      onChange={(alpha) => edit((before) => ({ ...before, alpha }))}
    />
  );
}

/** The limit within which likeness is to be shown, and the risk of showing it wrongly. */
function Likeness({ draft: { plan, edit } }: { draft: Draft }) {
  const set = (change: Partial<Plan["similarity"]>): void =>
    edit((before) => ({ ...before, similarity: { ...before.similarity, ...change } }));
  return (
    <>
      <NumberField
        id="method-limit"
        label={words.limit}
        hint={words.limitHint}
        unit="%"
        value={plan.similarity.limit * 100}
        low={1}
        high={99}
        onValue={(percent) => percent !== null && set({ limit: percent / 100 })}
      />
      <Choice
        id="method-beta"
        legend={words.beta}
        hint={words.betaHint}
        options={withOther(words.betaOptions, plan.similarity.beta)}
        value={plan.similarity.beta}
        onChange={(beta) => set({ beta })}
      />
    </>
  );
}

function NoPreferenceRule({ draft: { plan, edit } }: { draft: Draft }) {
  return (
    <Choice
      id="method-no-preference"
      legend={words.none}
      hint={words.noneHint}
      options={noPreferenceRules.map((value) => ({ value, ...words.noPreference[value] }))}
      value={plan.noPreference}
      onChange={(noPreference) => edit((before) => ({ ...before, noPreference }))}
    />
  );
}

/** The ballot's question as the tablet asks it, and nothing else of the tablet. */
function Preview({ plan }: { plan: Plan }) {
  const { guess, property } = shapeOf(plan.method);
  const below = [
    ...(guess ? [panel.question.guess] : []),
    ...(plan.method === "paired-preference" && plan.noPreference !== "not-offered"
      ? [panel.question.noPreference]
      : []),
  ];
  return (
    <figure class="preview">
      <figcaption class="label">{words.preview}</figcaption>
      <blockquote>
        {choiceQuestions(wordingOf(plan.method), property ? plan.properties : []).map((asked) => (
          <p key={asked}>{asked}</p>
        ))}
        {below.map((line) => (
          <p key={line} class="fine">
            {line}
          </p>
        ))}
      </blockquote>
    </figure>
  );
}
