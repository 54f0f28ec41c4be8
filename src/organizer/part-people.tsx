import { useMemo } from "preact/hooks";
import { leastForVerdict } from "../analysis/choice.ts";
import { findable, panelSize, saw } from "../design/panel-size.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { NumberField } from "./number-field.tsx";
import { sizeFigures } from "./plan-summary.ts";
import { Saw, SawTable } from "./saw.tsx";
import type { Draft } from "./use-draft.ts";

/** The power that a plan is held against. */
const wanted = 0.8;
/** Above this share only a glaring difference is found: more than "large" of the rule of thumb, with room. */
const glaring = 0.5;

/** Part 3: how many people, and what that many can find. */
export function PartPeople({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const words = planWords.people;
  const { method, alpha, people, discriminatorShareSought: share } = plan;
  const points = useMemo(() => {
    const to = Math.min(240, Math.max(66, people + 24));
    return saw(method, alpha, share, 6, to);
  }, [method, alpha, share, people]);
  const setPeople = (count: number | null) => count !== null && edit((before) => ({ ...before, people: count }));
  const setShare = (percent: number | null) =>
    percent !== null && edit((before) => ({ ...before, discriminatorShareSought: percent / 100 }));
  return (
    <>
      <div class="dials">
        <Dial label={words.peopleSlider} low={6} high={120} value={people} onValue={setPeople}>
          <NumberField
            id="people-people"
            label={words.people}
            value={people}
            low={1}
            high={5000}
            whole
            onValue={setPeople}
          />
        </Dial>
        <Dial label={words.shareSlider} low={5} high={100} value={share * 100} onValue={setShare}>
          <NumberField
            id="people-share"
            label={words.share}
            unit="%"
            value={share * 100}
            low={1}
            high={100}
            onValue={setShare}
          />
        </Dial>
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
      <p class="lead-in" aria-live="polite">
        {sizeSentences(plan).join(" ")}
      </p>
      <Saw points={points} chosen={people} share={share} />
      <details>
        <summary>{words.asTable}</summary>
        <SawTable points={points} chosen={people} share={share} />
      </details>
    </>
  );
}

function Dial(props: {
  label: string;
  low: number;
  high: number;
  value: number;
  onValue: (value: number) => void;
  children: preact.ComponentChildren;
}) {
  const { label, low, high, value, onValue, children } = props;
  return (
    <div class="dial">
      {children}
      <input
        type="range"
        aria-label={label}
        min={low}
        max={high}
        step={1}
        value={Math.round(value)}
        onInput={(event) => onValue(Number(event.currentTarget.value))}
      />
    </div>
  );
}

/** What this number of people finds, and how many would find it four times in five. */
export function sizeSentences(plan: Plan): string[] {
  const words = planWords.people;
  const { method, alpha, people, discriminatorShareSought: share } = plan;
  const { needed, chance } = sizeFigures(plan);
  if (needed === null) return [words.never(people)];
  if (people < leastForVerdict) return [words.tooFew(people, leastForVerdict)];
  const sentences = [words.finds(people, chance)];
  if (chance < wanted) {
    const size = panelSize(method, { alpha, discriminatorShare: share, power: wanted });
    const then = size && sizeFigures({ ...plan, people: size.peopleStable }).chance;
    sentences.push(size === null || then === null ? words.tooMany : words.other(size.peopleStable, then));
  }
  // said even of a plan that seeks no less: who asks for a glaring difference should know that it is one
  const least = findable(method, people, alpha, wanted);
  if (least && least.discriminatorShare > glaring) sentences.push(words.glaring(least.discriminatorShare));
  return sentences;
}
