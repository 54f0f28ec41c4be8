import { dayTime } from "../design/day-time.ts";
import { type Flag, planFlags, timeFlags } from "../design/flags.ts";
import type { Plan } from "../model/plan.ts";
import type { Pace } from "../model/plan-question.ts";
import { timeWords as words } from "../words/en/organizer-time.ts";
import { NumberField } from "./number-field.tsx";
import type { Draft } from "./use-draft.ts";

const setterOf =
  ({ edit }: Draft) =>
  (change: Partial<Pace>): void =>
    edit((before) => ({ ...before, pace: { ...before.pace, ...change } }));

/** Between which minutes after the heat the food is as it should be tasted. */
export function WindowFields({ draft }: { draft: Draft }) {
  const { windowFrom, windowTo } = draft.plan.pace;
  const set = setterOf(draft);
  const minutes = { unit: words.minutes, low: 0, high: 1440, mayBeEmpty: true };
  return (
    <fieldset class="field" aria-describedby="window-hint">
      <legend class="label">{words.window}</legend>
      <p class="fine" id="window-hint">
        {words.windowHint}
      </p>
      <div class="row close">
        <NumberField
          id="window-from"
          label={words.from}
          {...minutes}
          value={windowFrom}
          onValue={(from) => set({ windowFrom: from })}
        />
        <NumberField
          id="window-to"
          label={words.to}
          {...minutes}
          value={windowTo}
          onValue={(to) => set({ windowTo: to })}
        />
      </div>
    </fieldset>
  );
}

/** How long things take on the day, and whether the last cup is still as it should be. */
export function TimeAtTable({ draft }: { draft: Draft }) {
  const { plan } = draft;
  const set = setterOf(draft);
  const { pace } = plan;
  return (
    <>
      <h3>{words.heading}</h3>
      <div class="row">
        <NumberField
          id="pace-taste"
          label={words.taste}
          unit={words.seconds}
          value={pace.tasteSeconds}
          low={5}
          high={600}
          whole
          onValue={(seconds) => seconds !== null && set({ tasteSeconds: seconds })}
        />
        <NumberField
          id="pace-serve"
          label={words.serve}
          unit={words.seconds}
          value={pace.serveSeconds}
          low={0}
          high={600}
          whole
          onValue={(seconds) => seconds !== null && set({ serveSeconds: seconds })}
        />
      </div>
      <p class="fine">{words.hint}</p>
      <NumberField
        id="pace-most"
        label={words.most}
        hint={words.mostHint}
        value={pace.mostSamples}
        low={1}
        high={60}
        whole
        onValue={(samples) => samples !== null && set({ mostSamples: samples })}
      />
      <div aria-live="polite">
        <p class="lead-in">{timeSentence(plan)}</p>
        <Flags flags={timeFlags(plan)} />
      </div>
    </>
  );
}

/** How long a sitting and a wave take, and where its last cup falls, as far as the plan says. */
function timeSentence(plan: Plan): string {
  const { samples, sittingSeconds, waveSeconds, largest, lastCupAt, past } = dayTime(plan);
  const { windowTo } = plan.pace;
  return [
    words.sitting(samples, sittingSeconds),
    largest === null ? words.noSeats : words.wave(largest, waveSeconds),
    lastCupAt === null || windowTo === null ? words.noWindow : past ? "" : words.within(lastCupAt, windowTo),
  ]
    .filter(Boolean)
    .join(" ");
}

function Flags({ flags }: { flags: readonly Flag[] }) {
  return (
    <>
      {flags.map((flag) => (
        <p key={flag.what} class="note">
          {flagSentence(flag)}
        </p>
      ))}
    </>
  );
}

/** On the lock page: what may be locked and yet is worth a second look. Nothing where there is nothing. */
export function SecondLook({ plan }: { plan: Plan }) {
  const flags = planFlags(plan);
  if (flags.length === 0) return null;
  return (
    <section>
      <h2>{words.flagsHeading}</h2>
      <p>{words.flagsLead}</p>
      <Flags flags={flags} />
    </section>
  );
}

function flagSentence(flag: Flag): string {
  switch (flag.what) {
    case "last-cup":
      return words.flag["last-cup"](flag);
    case "many-samples":
      return words.flag["many-samples"](flag);
    case "short-pause":
      return words.flag["short-pause"](flag);
    case "one-batch":
      return words.flag["one-batch"](flag);
    case "looks":
      return words.flag.looks();
  }
}
