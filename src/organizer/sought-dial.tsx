import { familyOf } from "../analysis/method.ts";
import { usualDPrime } from "../design/size-test.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Dial } from "./dial.tsx";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { soughtAsDistance, soughtAsShare, tenth } from "./plan-choice.ts";
import { sizeWords } from "./plan-summary.ts";
import type { Draft } from "./use-draft.ts";

/** How large a difference the plan should find: as a share, or as a distance where the method has one. */
export function SoughtDial({ draft }: { draft: Draft }) {
  const { plan } = draft;
  if (familyOf(plan.method, plan.sides) === "kinds") return <DistanceDial draft={draft} />;
  return plan.method === "paired-preference" || plan.dPrimeSought === null ? (
    <ShareDial draft={draft} />
  ) : (
    <DistanceDial draft={draft} />
  );
}

/** In which unit it is named, where there are two. */
export function SoughtUnit({ draft: { plan, edit } }: { draft: Draft }) {
  if (familyOf(plan.method, plan.sides) === "kinds" || plan.method === "paired-preference") return null;
  return (
    <Choice
      id="people-unit"
      legend={choiceWords.unit}
      options={choiceWords.units}
      value={plan.dPrimeSought === null ? "share" : "distance"}
      onChange={(unit) => edit(unit === "share" ? soughtAsShare : soughtAsDistance)}
    />
  );
}

function DistanceDial({ draft: { plan, edit } }: { draft: Draft }) {
  const set = (dPrimeSought: number | null) => dPrimeSought !== null && edit((before) => ({ ...before, dPrimeSought }));
  const value = plan.dPrimeSought;
  return (
    <Dial
      label={choiceWords.distanceSlider}
      low={0.2}
      high={4}
      step={0.1}
      value={value ?? usualDPrime}
      onValue={(moved) => set(tenth(moved))}
    >
      <NumberField id="people-distance" label={choiceWords.distance} value={value} low={0.05} high={10} onValue={set} />
    </Dial>
  );
}

/** The share to be found in percent: who can tell; for a pair the larger side, 51 to 100 of those who choose. */
function ShareDial({ draft: { plan, edit } }: { draft: Draft }) {
  const sided = familyOf(plan.method, plan.sides) === "pair";
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
        unit={sided ? planWords.people.ofHundredWhoChoose : "%"}
        value={value}
        low={sided ? 51 : 1}
        high={100}
        onValue={set}
      />
    </Dial>
  );
}
