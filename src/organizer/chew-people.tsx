import { useMemo } from "preact/hooks";
import { comparisonsOf, portionTestOf } from "../analysis/portion-power.ts";
import { pairPower, type ScaleTest } from "../analysis/scale-power.ts";
import { differenceHalfWidth } from "../design/interval-width.ts";
import { differenceFoundBy, scalePeople } from "../design/scale-size.ts";
import type { Plan } from "../model/plan.ts";
import { chewWords } from "../words/en/organizer-chew.ts";
import { chewSize as words } from "../words/en/organizer-chew-size.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { TextField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import { PowerTable } from "./power-table.tsx";
import { Saw } from "./saw.tsx";
import type { Draft } from "./use-draft.ts";

/** Chewed portions: the difference that matters, how people scatter, and what the people of the plan then find. */
export function ChewPeople({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { matters, scatter } = plan.chew;
  const set = (change: Partial<Plan["chew"]>): void =>
    edit((before) => ({ ...before, chew: { ...before.chew, ...change } }));
  if (plan.people === 1) return <p class="lead-in">{chewWords.one}</p>;
  return (
    <>
      <div class="row close">
        <NumberField
          id="people-matters"
          label={words.difference}
          unit={words.points}
          value={matters}
          low={0.1}
          high={100}
          mayBeEmpty
          onValue={(value) => set({ matters: value })}
        />
        <NumberField
          id="people-scatter"
          label={words.deviation}
          unit={words.points}
          value={scatter?.deviation ?? null}
          low={0.1}
          high={100}
          mayBeEmpty
          onValue={(value) => set({ scatter: value === null ? null : { deviation: value, from: scatter?.from ?? "" } })}
        />
      </div>
      <p class="fine">{words.hint}</p>
      {scatter === null ? null : (
        <TextField
          id="people-scatter-from"
          label={words.from}
          hint={words.fromHint}
          value={scatter.from}
          onInput={(from) => set({ scatter: { ...scatter, from } })}
        />
      )}
      <Found plan={plan} />
    </>
  );
}

function Found({ plan }: { plan: Plan }) {
  const { alpha, products, people, chew } = plan;
  const { matters, control, scatter } = chew;
  const compared = comparisonsOf(products.length, control !== null);
  // the same test as long as nothing changes that it hangs on
  const test = useMemo(() => portionTestOf(plan), [matters, scatter?.deviation, alpha, compared, people === 1]);
  const enough = useMemo(() => (test ? (scalePeople(test)?.people ?? null) : null), [test]);
  const points = useMemo(() => (test ? curve(test, people, enough) : []), [test, people, enough]);
  if (test === null) {
    return <p class="lead-in">{matters === null || scatter === null ? words.open : words.needsProducts}</p>;
  }
  return (
    <>
      <p class="lead-in" aria-live="polite">
        {sentences(test, people, enough).join(" ")}
      </p>
      <Saw points={points} chosen={people} share={test.difference} words={words} />
      <details>
        <summary>{planWords.people.asTable}</summary>
        <PowerTable
          chosen={people}
          points={points}
          finds={words.columns.finds(test.difference)}
          width={words.columns.width}
          widthOf={(count) => words.either(halfWidth(test, count))}
        />
      </details>
      <p class="fine">{words.source}</p>
      <p class="note">{words.supposed(scatter?.from ?? "")}</p>
    </>
  );
}

/** From two people on, as far as the panel that would do, and some more. */
function curve(test: ScaleTest, chosen: number, enough: number | null) {
  const last = Math.min(240, Math.ceil(Math.max(36, chosen + 6, (enough ?? 0) + 12) / 12) * 12);
  const counts = Array.from({ length: last - 2 }, (_, at) => at + 3);
  const all = counts.includes(chosen) ? counts : [...counts, Math.max(2, chosen)].sort((a, b) => a - b);
  return all.map((people) => ({ people, power: pairPower(test, people) }));
}

const halfWidth = (test: ScaleTest, people: number): number =>
  differenceHalfWidth({ products: 2, people, residualDeviation: test.deviation });

function sentences(test: ScaleTest, people: number, enough: number | null): string[] {
  const counted = Math.max(2, people);
  const least = differenceFoundBy(test, counted);
  const { sharing = 1 } = test;
  return [
    words.finds(counted, pairPower(test, counted), test.difference),
    enough === null ? words.tooMany : words.needed(enough),
    least === null ? words.nothing(counted) : words.least(counted, least),
    words.width(halfWidth(test, counted)),
    ...(sharing > 1 ? [words.sharing(sharing)] : []),
  ];
}
