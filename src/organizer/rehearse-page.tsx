import { useRef, useState } from "preact/hooks";
import { familyOf } from "../analysis/method.ts";
import { verdictSteps } from "../analysis/scale-power.ts";
import { usualScatter, usualWorlds } from "../design/rehearsal.ts";
import { seeksLikeness } from "../design/size-test.ts";
import type { Plan } from "../model/plan.ts";
import { type EffectUnit, playsOfRehearsal, type Rehearsal, type WorldPlayed } from "../model/rehearsal.ts";
import { useWidth } from "../ui/use-width.ts";
import { organizer } from "../words/en/organizer.ts";
import { blankWords } from "../words/en/organizer-blank.ts";
import { rehearsalWords as words } from "../words/en/organizer-rehearsal.ts";
import { Dial } from "./dial.tsx";
import { Choice, TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { Page } from "./page.tsx";
import { HundredSquares } from "./rehearsal-picture.tsx";
import { studyAddress } from "./route.ts";
import type { StudyProps } from "./study.tsx";
import { planOf } from "./study-stage.ts";
import { type Player, type RehearsalState, useRehearsal } from "./use-rehearsal.ts";

/** What the lead supposes of the world, and how long luck is to be tried. */
type Supposed = { effect: number; deviation: number; plays: number; seed: string };

/** A plan played with invented people, before anything is bought. Nothing of it is written anywhere. */
export function RehearsePage({ id, state, start }: StudyProps & { start?: () => Player }) {
  const plan = planOf(state);
  if (!plan) throw new Error("a study without a plan has no rehearsal");
  const title = plan.title.trim() || organizer.untitled;
  const { rightly, unit } = usualWorlds(plan);
  const [supposed, setSupposed] = useState<Supposed>({
    effect: rightly,
    deviation: usualScatter(plan),
    plays: playsOfRehearsal.usual,
    seed: "1",
  });
  const { state: going, play, stop } = useRehearsal(start);
  const playing = going.at === "playing";
  return (
    <Page
      heading={words.heading(title)}
      windowTitle={`${words.windowTitle}: ${title}`}
      margin={words.notes(unit).map((note) => <p key={note}>{note}</p>)}
    >
      <p class="fine under">
        <a href={studyAddress(id)}>{words.back}</a>
      </p>
      <p class="lead-in">{plan.blank ? blankWords.rehearsal.lead : words.lead}</p>
      <SupposedFields plan={plan} supposed={supposed} set={(change) => setSupposed({ ...supposed, ...change })} />
      <p class="after-row">
        <button
          type="button"
          class="next"
          aria-disabled={playing}
          onClick={() => playing || play({ plan, ...supposed })}
        >
          {going.at === "done" ? words.again : words.play}
        </button>
        {state.lock ? null : <span class="fine">{words.filled}</span>}
      </p>
      <Going going={going} stop={stop} />
      {going.at === "done" ? <Outcome plan={plan} rehearsal={going.rehearsal} texts={going.texts} /> : null}
    </Page>
  );
}

type FieldsProps = { plan: Plan; supposed: Supposed; set: (change: Partial<Supposed>) => void };

function SupposedFields({ plan, supposed, set }: FieldsProps) {
  const { unit, most } = usualWorlds(plan);
  const { factor, offset, high } = shownAs(unit, most);
  const value = offset + supposed.effect * factor;
  const steps = unit === "points" ? verdictSteps(plan) : null;
  const setShown = (shown: number | null): void => {
    if (shown !== null) set({ effect: Math.max(0, (shown - offset) / factor) });
  };
  return (
    <div class="fields">
      <div class="dials">
        {plan.blank ? null : (
          <Dial
            label={words.effectSlider}
            low={offset}
            high={Math.min(high, unit === "points" ? 40 : unit === "d-prime" ? 4 : high)}
            step={unit === "d-prime" ? 0.1 : 1}
            value={value}
            onValue={setShown}
          >
            <NumberField
              id="rehearse-effect"
              label={seeksLikeness(plan) ? words.apart : words.effect[unit]}
              unit={words.units[unit]}
              value={value}
              low={offset}
              high={high}
              onValue={setShown}
            />
          </Dial>
        )}
        {unit === "points" ? (
          <div class="dial">
            <NumberField
              id="rehearse-deviation"
              label={words.deviation}
              unit={words.units.points}
              value={supposed.deviation}
              low={0.1}
              high={100}
              onValue={(deviation) => deviation !== null && set({ deviation })}
            />
          </div>
        ) : null}
      </div>
      {steps === null ? null : <p class="fine">{words.inSteps(steps)}</p>}
      <Choice
        id="rehearse-plays"
        legend={words.plays}
        options={words.playsOptions}
        value={supposed.plays}
        onChange={(plays) => set({ plays })}
      />
      <TextField
        id="rehearse-seed"
        label={words.seed}
        hint={words.seedHint}
        value={supposed.seed}
        chars={12}
        onInput={(seed) => set({ seed })}
      />
    </div>
  );
}

/** How an effect stands in its field: shares in percent, a lead as the larger side of 100, the others as they are. */
function shownAs(unit: EffectUnit, most: number): { factor: number; offset: number; high: number } {
  if (unit === "share") return { factor: 100, offset: 0, high: 100 };
  if (unit === "lead") return { factor: 50, offset: 50, high: 100 };
  return { factor: 1, offset: 0, high: most };
}

/** How far it is, and the way to stop it; or that it was stopped or broke off. */
function Going({ going, stop }: { going: RehearsalState; stop: () => void }) {
  return (
    <div role="status">
      {going.at === "playing" ? (
        <p class="after-row">
          <progress aria-label={words.playing} max={going.all} value={going.done} />
          <span class="number">{words.progress(going.done, going.all)}</span>
          <button type="button" class="quiet" onClick={stop}>
            {words.stop}
          </button>
        </p>
      ) : null}
      {going.at === "stopped" ? <p class="note">{words.stopped}</p> : null}
      {going.at === "failed" ? <p class="wrong">{going.sentence}</p> : null}
    </div>
  );
}

type Texts = Extract<RehearsalState, { at: "done" }>["texts"];

function Outcome({ plan, rehearsal, texts }: { plan: Plan; rehearsal: Rehearsal; texts: Texts }) {
  const { rightly, wrongly, unit } = rehearsal;
  const goal = seeksLikeness(plan) ? "similarity" : "difference";
  const remarks = [
    ...(familyOf(plan.method, plan.sides) === "scale" ? [words.line] : []),
    ...(plan.repeats > 1 && unit === "share" ? [words.repeats] : []),
  ];
  return (
    <>
      <section>
        <h2>{words.results}</h2>
        {plan.blank ? null : <World unit={unit} world={rightly} found={words.rightly(goal, rightly)} />}
        <World unit={unit} world={wrongly} found={words.wrongly(goal, wrongly)} />
        <Squares rightly={plan.blank ? null : rightly} wrongly={wrongly} />
        {remarks.map((remark) => (
          <p key={remark} class="fine">
            {remark}
          </p>
        ))}
      </section>
      <section>
        <h2>{words.examples}</h2>
        <p>{words.examplesLead}</p>
        {rehearsal.examples.map(({ judgments }, at) => (
          <div key={words.example(at + 1, judgments)} class="rehearsed">
            <h3>{words.example(at + 1, judgments)}</h3>
            <p class="lead-in">{texts[at]?.verdict}</p>
            <p>
              {texts[at]?.size} {texts[at]?.meaning}
            </p>
            <p class="fine">{words.invented}</p>
          </div>
        ))}
      </section>
    </>
  );
}

function World({ unit, world, found }: { unit: EffectUnit; world: WorldPlayed; found: string }) {
  return (
    <>
      <p class="lead-in">
        {words.truth(unit, world)} {found}
      </p>
      <p>
        {words.share(world)} {words.expected(world)}
      </p>
    </>
  );
}

function Squares({ rightly, wrongly }: { rightly: WorldPlayed | null; wrongly: WorldPlayed }) {
  const holder = useRef<HTMLElement>(null);
  const width = useWidth(holder, 600);
  const inHundred = ({ yes, plays }: WorldPlayed): number => Math.round((100 * yes) / plays);
  const rows = [
    ...(rightly ? [{ yes: inHundred(rightly), label: words.rightRow }] : []),
    { yes: inHundred(wrongly), label: words.wrongRow },
  ];
  return (
    <figure ref={holder} class="hundred">
      <HundredSquares rows={rows} width={width} caption="rehearsal-caption" />
      <figcaption id="rehearsal-caption" class="fine">
        {rightly
          ? words.picture(inHundred(rightly), inHundred(wrongly))
          : blankWords.rehearsal.picture(inHundred(wrongly))}
      </figcaption>
    </figure>
  );
}
