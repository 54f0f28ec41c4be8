import { useMemo } from "preact/hooks";
import { leastForVerdict } from "../analysis/choice.ts";
import { findable, saw, sizeOf } from "../design/panel-size.ts";
import { type SizeTest, seeksLikeness, sizeTest } from "../design/size-test.ts";
import { type Plan, panelTypes } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { Width } from "./part-width.tsx";
import { sizeFigures, sizeWords } from "./plan-summary.ts";
import { Saw, SawTable } from "./saw.tsx";
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
    [plan.method, plan.goal, plan.alpha, plan.similarity, plan.discriminatorShareSought],
  );
  return (
    <>
      <div class="dials">
        <PeopleDial draft={draft} />
        {test === null || seeksLikeness(plan) ? null : <ShareDial draft={draft} />}
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
      {test === null ? <Width plan={plan} /> : <Teeth plan={plan} test={test} />}
      <PanelType draft={draft} />
    </>
  );
}

function Teeth({ plan, test }: { plan: Plan; test: SizeTest }) {
  const { people } = plan;
  const points = useMemo(() => {
    // as far as the panel that would do, and some more to see that it stays there
    const enough = sizeOf(test, wanted)?.peopleStable ?? 0;
    return saw(test, 6, Math.min(240, Math.max(66, people + 24, enough + 12)));
  }, [test, people]);
  const shown = { points, chosen: plan.people, ...sizeWords(plan) };
  return (
    <>
      <p class="lead-in" aria-live="polite">
        {sizeSentences(plan).join(" ")}
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

/** The share to be found in percent: who can tell; for a preference the larger side, 51 to 100 of those who choose. */
function ShareDial({ draft: { plan, edit } }: { draft: Draft }) {
  const sided = plan.method === "paired-preference";
  const { share, shareSlider } = sizeWords(plan).words;
  const lead = plan.discriminatorShareSought * 100;
  const set = (percent: number | null) => {
    if (percent === null) return;
    const sought = (sided ? 2 * percent - 100 : percent) / 100;
    edit((before) => ({ ...before, discriminatorShareSought: sought }));
  };
  const value = sided ? 50 + lead / 2 : lead;
  return (
    <Dial label={shareSlider} low={sided ? 55 : 5} high={sided ? 95 : 100} value={value} onValue={set}>
      <NumberField
        id="people-share"
        label={share}
        unit={sided ? words.ofHundredWhoChoose : "%"}
        value={value}
        low={sided ? 51 : 1}
        high={100}
        onValue={set}
      />
    </Dial>
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

/** Who sits on the panel. Where it is asked what it likes, people who stand for nobody but themselves are flagged. */
function PanelType({ draft: { plan, edit } }: { draft: Draft }) {
  const { panel, panelTypes: types, panelFlag } = planWords.method;
  const flag = plan.method === "paired-preference" ? panelFlag[plan.panelType] : "";
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

/** What this number of people finds, and how many would find it four times in five. Empty for the line scale. */
export function sizeSentences(plan: Plan): string[] {
  const test = sizeTest(plan);
  const figures = sizeFigures(plan);
  if (test === null || figures === null) return [];
  const { people, method, alpha } = plan;
  const { words: said, share } = sizeWords(plan);
  if (figures.needed === null) return [said.never(people)];
  if (people < leastForVerdict) return [words.tooFew(people, leastForVerdict)];
  const sentences = [said.finds(people, figures.chance, share)];
  if (figures.chance < wanted) {
    const size = sizeOf(test, wanted);
    sentences.push(
      size ? words.other(size.peopleStable, test.chance(size.peopleStable, test.soughtAt)) : words.tooMany,
    );
  }
  if (seeksLikeness(plan)) return sentences;
  // said even of a plan that seeks no less: who asks for a glaring difference should know that it is one
  const least = findable(method, people, alpha, wanted);
  if (least && least.discriminatorShare > glaring) sentences.push(said.glaring(least.discriminatorShare));
  return sentences;
}
