import { useMemo } from "preact/hooks";
import {
  differenceKnown,
  pairPower,
  productsPower,
  type ScaleTest,
  scaleTestOf,
  verdictSteps,
} from "../analysis/scale-power.ts";
import { differenceHalfWidth } from "../design/interval-width.ts";
import { differenceFoundBy, scalePeople } from "../design/scale-size.ts";
import type { Plan, ScaleSought } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { scaleSize as words } from "../words/en/organizer-scale-size.ts";
import { PowerTable } from "./power-table.tsx";
import { Saw } from "./saw.tsx";

/** What the people of a line-scale plan find: sentences, the picture, the same as a table. */
export function ScalePower({ plan, sought }: { plan: Plan; sought: ScaleSought }) {
  const test = useTest(plan, sought);
  const enough = useMemo(() => (test ? (scalePeople(test)?.people ?? null) : null), [test]);
  const last = lastPeople(plan.people, enough);
  const points = useMemo(() => (test ? curve(test, last) : []), [test, last]);
  if (test === null) return <p class="lead-in">{words.needsProducts}</p>;
  const shown = points.some(({ people }) => people === plan.people)
    ? points
    : [...points, { people: plan.people, power: pairPower(test, plan.people) }].sort((a, b) => a.people - b.people);
  return (
    <>
      <p class="lead-in" aria-live="polite">
        {scaleSentences(test, plan.people, enough, verdictSteps(plan)).join(" ")}
      </p>
      <Saw points={shown} chosen={plan.people} share={sought.difference} words={words} />
      <details>
        <summary>{planWords.people.asTable}</summary>
        <PowerTable
          chosen={plan.people}
          points={shown}
          finds={words.columns.finds(test.difference)}
          width={words.columns.width}
          widthOf={(people) => widthOf(test, people)}
        />
      </details>
    </>
  );
}

/** The test of a plan, the same one as long as nothing changes that it hangs on. */
function useTest(plan: Plan, sought: ScaleSought): ScaleTest | null {
  const { difference, deviation, seenDeviation } = sought;
  const { alpha, repeats, perTray } = plan;
  return useMemo(
    () => scaleTestOf(plan, sought),
    [difference, deviation, seenDeviation, alpha, repeats, perTray, plan.products.length, plan.scale.attributes],
  );
}

/** As far as the panel that would do, and some more; in steps, so that a slider does not draw all of it anew. */
const lastPeople = (people: number, enough: number | null): number =>
  Math.min(240, Math.ceil(Math.max(66, people + 6, (enough ?? 0) + 12) / 24) * 24);

const curve = (test: ScaleTest, last: number) =>
  Array.from({ length: last - 5 }, (_, at) => at + 6).map((people) => ({ people, power: pairPower(test, people) }));

/** What so many people find, and how many would find it four times in five. */
function scaleSentences(test: ScaleTest, people: number, enough: number | null, steps: number | null): string[] {
  if (people < 1 || differenceKnown({ ...test, people }).df < 1) return [words.tooFew];
  const chance = pairPower(test, people);
  const least = differenceFoundBy(test, people);
  const half = differenceHalfWidth({ ...test, people, residualDeviation: test.deviation });
  const sentences = [
    words.finds(people, chance, test.difference, steps),
    enough === null ? words.tooMany : words.needed(enough),
    least === null ? words.nothing(people) : words.least(people, least, steps),
    words.width(half, steps),
  ];
  const pairs = (test.products * (test.products - 1)) / 2;
  if (pairs > 1) sentences.push(words.several(pairs, productsPower(test, people)));
  const { sharing = 1, repeats = 1, seenShare = 0 } = test;
  if (repeats > 1) {
    const seen = seenShare === 0 ? null : test.deviation * Math.sqrt(seenShare);
    sentences.push(words.repeats(repeats, pairPower({ ...test, seenShare: 1 }, people), seen));
  }
  if (sharing > 1) sentences.push(words.sharing(sharing));
  return sentences;
}

const widthOf = (test: ScaleTest, people: number): string =>
  people < 1 || differenceKnown({ ...test, people }).df < 1
    ? planWords.people.none
    : words.either(differenceHalfWidth({ ...test, people, residualDeviation: test.deviation }));
