import { useMemo } from "preact/hooks";
import { type Findable, findableBy, type PanelSize, saw, sizeOf } from "../design/panel-size.ts";
import { type SizeTest, seeksLikeness, sizeTest } from "../design/size-test.ts";
import { shapeOf } from "../model/method.ts";
import { leastForVerdict } from "../model/outcome.ts";
import { type Plan, panelTypes } from "../model/plan.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { splitText } from "../words/en/organizer-people.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { ChewPeople } from "./chew-people.tsx";
import { Dial } from "./dial.tsx";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { Repeats } from "./part-repeats.tsx";
import { likingFlag, sizeFigures, sizeWords } from "./plan-summary.ts";
import { Saw, SawTable } from "./saw.tsx";
import { ScaleSoughtPart } from "./scale-sought.tsx";
import { SoughtDial, SoughtUnit } from "./sought-dial.tsx";
import type { Draft } from "./use-draft.ts";

/** The power that a plan is held against. */
const wanted = 0.8;
/** Above this share only a glaring difference is found: more than "large" of the rule of thumb, with room. */
const glaring = 0.5;

const words = planWords.people;

/** Part 3: how many people, what that many can find, and who they are. */
export function PartPeople({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const test = useMemo(
    () => sizeTest(plan),
    [
      ...[plan.method, plan.goal, plan.alpha, plan.similarity, plan.sides, plan.repeats],
      ...[plan.discriminatorShareSought, plan.dPrimeSought],
    ],
  );
  const size = useMemo(() => test && sizeOf(test, wanted), [test]);
  return (
    <>
      <div class="dials">
        <PeopleDial draft={draft} />
        {test === null || seeksLikeness(plan) ? null : <SoughtDial draft={draft} />}
        <div class="dial">
          <NumberField
            id="people-spares"
            label={words.spares}
            value={plan.spares}
            low={0}
            high={500}
            whole
            onValue={(spares) => spares !== null && edit((before) => ({ ...before, spares }))}
          />
        </div>
      </div>
      {test === null || seeksLikeness(plan) ? null : <SoughtUnit draft={draft} />}
      {shapeOf(plan.method).repeats || plan.repeats > 1 ? <Repeats draft={draft} /> : null}
      {plan.method === "ranking" ? (
        <RankingPeople />
      ) : shapeOf(plan.method).answer === "portions" ? (
        <ChewPeople draft={draft} />
      ) : test === null ? (
        <ScaleSoughtPart draft={draft} />
      ) : (
        <Teeth plan={plan} test={test} size={size} />
      )}
      <PanelType draft={draft} />
    </>
  );
}

/** A ranking has no figure of what it finds: what is usual stands in its place. */
function RankingPeople() {
  const { usual, noPower } = planWords.ranking;
  return (
    <>
      <p class="lead-in">{usual}</p>
      <p class="fine">{noPower}</p>
    </>
  );
}

function Teeth({ plan, test, size }: { plan: Plan; test: SizeTest; size: PanelSize | null }) {
  const { people } = plan;
  const points = useMemo(() => {
    // as far as the panel that would do, and some more to see that it stays there
    const enough = size?.peopleStable ?? 0;
    return saw(test, 6, Math.min(240, Math.max(66, people + 24, enough + 12)));
  }, [test, size, people]);
  const shown = { points, chosen: plan.people, ...sizeWords(plan) };
  return (
    <>
      <p class="lead-in" aria-live="polite">
        {sizeSentences(plan, test, size).join(" ")}
      </p>
      <Saw {...shown} />
      <details>
        <summary>{words.asTable}</summary>
        <SawTable {...shown} />
      </details>
    </>
  );
}

function PeopleDial({ draft: { plan, edit } }: { draft: Draft }) {
  const set = (count: number | null) => count !== null && edit((before) => ({ ...before, people: count }));
  return (
    <Dial label={words.peopleSlider} low={6} high={120} value={plan.people} onValue={set}>
      <NumberField
        id="people-people"
        label={words.people}
        value={plan.people}
        low={1}
        high={5000}
        whole
        onValue={set}
      />
    </Dial>
  );
}

/** Who sits on the panel. Where it is asked what it likes, people who stand for nobody but themselves are flagged. */
function PanelType({ draft: { plan, edit } }: { draft: Draft }) {
  const { panel, panelTypes: types } = planWords.method;
  const flag = likingFlag(plan);
  return (
    <>
      <Choice
        id="people-panel"
        legend={panel}
        options={panelTypes.map((value) => ({ value, ...types[value] }))}
        value={plan.panelType}
        onChange={(panelType) => edit((before) => ({ ...before, panelType }))}
      />
      {flag ? (
        <p class="note" role="status">
          {flag}
        </p>
      ) : null}
    </>
  );
}

/**
 * What this number of people finds, and how many would find it four times in five. Empty for the line scale and the ranking.
 *
 * Takes    test, size: of this plan, where they were worked out before
 */
export function sizeSentences(plan: Plan, test = sizeTest(plan), size = test && sizeOf(test, wanted)): string[] {
  const figures = sizeFigures(plan, test);
  if (test === null || figures === null) return [];
  const { people, repeats } = plan;
  const { words: said, share } = sizeWords(plan);
  if (figures.needed === null) return [said.never(people)];
  if (people < leastForVerdict && !(people === 1 && repeats >= leastForVerdict)) {
    return [words.tooFew(people, leastForVerdict)];
  }
  const sentences = [said.finds(people, figures.chance, share)];
  if (size) sentences.push(choiceWords.first(size.people, size.peopleStable));
  else if (figures.chance < wanted) sentences.push(words.tooMany);
  if (seeksLikeness(plan)) return sentences;
  const least = findableBy(test, people, wanted);
  if (least) sentences.push(choiceWords.canFind(people, effectText(test, least)));
  // said even of a plan that seeks no less: who asks for a glaring difference should know that it is one
  if (least && test.unit !== "d-prime" && least.effect > glaring) sentences.push(said.glaring(least.effect));
  return sentences;
}

/** The effect that so many find, in the words of its unit. */
function effectText({ unit }: SizeTest, { effect, dPrime }: Findable): string {
  if (unit === "d-prime") return choiceWords.onlyDistance(effect);
  return unit === "lead" ? splitText(Math.ceil(effect * 50) / 50) : choiceWords.shareAndDistance(effect, dPrime);
}
