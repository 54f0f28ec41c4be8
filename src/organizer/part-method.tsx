import { useState } from "preact/hooks";
import { discriminatorShareAt, dPrimeOf } from "../analysis/method.ts";
import { advice } from "../design/advice.ts";
import { seeksLikeness } from "../design/size-test.ts";
import { shapeOf, sidesFor } from "../model/method.ts";
import { noPreferenceRules, type Plan } from "../model/plan.ts";
import { goesBy } from "../model/plan-question.ts";
import { adviceWords } from "../words/en/organizer-advice.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { panel } from "../words/en/panel.ts";
import { choiceAnswers, choiceQuestions } from "../words/en/panel-choice.ts";
import { choiceBallot, wordingOf } from "./ballot-words.ts";
import { CostTable } from "./cost-table.tsx";
import { Choice } from "./fields.tsx";
import { MethodList } from "./method-list.tsx";
import { NumberField } from "./number-field.tsx";
import { PartChew } from "./part-chew.tsx";
import { PartChoice } from "./part-choice.tsx";
import { PartRanking } from "./part-ranking.tsx";
import { PartScale } from "./part-scale.tsx";
import { withMethod } from "./plan-edit.ts";
import { Proposal } from "./proposal.tsx";
import type { Draft } from "./use-draft.ts";

const words = planWords.method;

/** Part 2: the method, what it can and cannot say, its own rules, and the risk of being fooled by chance. */
export function PartMethod({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { method } = plan;
  const goal = seeksLikeness(plan) ? "similarity" : "difference";
  const { yes, no } = words.says[method][goal];
  // a blank study has but one aim: to find nothing
  const mayBeAlike = !plan.blank && shapeOf(method).similarity && sidesFor(method, plan.sides) === "one";
  return (
    <>
      <Proposal draft={draft} />
      <Methods draft={draft} />
      {/* a plan from elsewhere may have a goal that its method cannot have: it is shown to be changed */}
      {mayBeAlike || plan.goal === "similarity" ? (
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
      <CostTable draft={draft} />
      {goal === "similarity" ? <Likeness draft={draft} /> : <Alpha draft={draft} />}
      {method === "paired-preference" ? <NoPreferenceRule draft={draft} /> : null}
      {method === "line-scale" ? (
        <PartScale draft={draft} />
      ) : shapeOf(method).answer === "portions" ? (
        <PartChew draft={draft} />
      ) : (
        <>
          {shapeOf(method).answer === "order" ? <PartRanking draft={draft} /> : <PartChoice draft={draft} />}
          <Preview plan={plan} />
        </>
      )}
    </>
  );
}

/** The list of methods; folded away while the plan goes by the planner's advice, for whoever wants another. */
function Methods({ draft: { plan, edit } }: { draft: Draft }) {
  const given = advice(plan);
  const [open] = useState(given === null || !goesBy(plan, given));
  const list = (
    <MethodList
      value={plan.method}
      proposed={given?.method ?? null}
      onChange={(chosen) => edit((before) => withMethod(before, chosen))}
    />
  );
  if (given === null) return list;
  return (
    <details open={open}>
      <summary>{adviceWords.otherMethods}</summary>
      {list}
    </details>
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
  const { limit, dPrime, beta } = plan.similarity;
  const set = (change: Partial<Plan["similarity"]>): void =>
    edit((before) => ({ ...before, similarity: { ...before.similarity, ...change } }));
  const share = dPrime === null ? limit : discriminatorShareAt(plan.method, dPrime);
  const distance = dPrimeOf(plan.method, limit);
  return (
    <>
      <Choice
        id="method-limit-unit"
        legend={choiceWords.limitUnit}
        options={choiceWords.units}
        value={dPrime === null ? "share" : "distance"}
        onChange={(unit) => set({ dPrime: unit === "share" ? null : Math.round((distance ?? 1) * 100) / 100 })}
      />
      {dPrime === null ? (
        <NumberField
          id="method-limit"
          label={words.limit}
          hint={words.limitHint}
          unit="%"
          value={limit * 100}
          low={1}
          high={99}
          onValue={(percent) => percent !== null && set({ limit: percent / 100 })}
        />
      ) : (
        <NumberField
          id="method-limit"
          label={choiceWords.limitDistance}
          hint={choiceWords.distanceHint}
          value={dPrime}
          low={0.05}
          high={10}
          onValue={(value) => value !== null && set({ dPrime: value })}
        />
      )}
      <p class="fine">
        {dPrime !== null ? choiceWords.sameAs(share) : distance === null ? "" : choiceWords.distanceIs(distance)}
      </p>
      <Choice
        id="method-beta"
        legend={words.beta}
        hint={words.betaHint}
        options={withOther(words.betaOptions, beta)}
        value={beta}
        onChange={(chosen) => set({ beta: chosen })}
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

/** The ballot's questions as the tablet asks them, and nothing else of the tablet. */
function Preview({ plan }: { plan: Plan }) {
  const shape = shapeOf(plan.method);
  const questions = choiceQuestions(
    wordingOf(plan.method),
    shape.property ? plan.properties.filter(({ comparative }) => comparative.trim() !== "") : [],
    plan.ranking,
  );
  if (shape.property && plan.properties.every(({ comparative }) => comparative.trim() === "")) return null;
  if (shape.answer === "order" && !(plan.ranking.least.trim() && plan.ranking.most.trim())) return null;
  const ballot = choiceBallot(wordingOf(plan.method));
  const below = [
    ...(shape.answer === "order" && ballot ? [`${ballot.how} ${ballot.unsure}`] : []),
    ...(shape.answer === "same-different" ? [choiceAnswers.same, choiceAnswers.different] : []),
    ...(shape.answer === "a-not-a" ? [choiceAnswers.a, choiceAnswers["not-a"]] : []),
    ...(shape.guess ? [panel.question.guess] : []),
    ...(plan.method === "paired-preference" && plan.noPreference !== "not-offered"
      ? [panel.question.noPreference]
      : []),
  ];
  return (
    <figure class="preview">
      <figcaption class="label">{words.preview}</figcaption>
      <blockquote>
        {questions.map((question) => (
          <p key={question}>{question}</p>
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
