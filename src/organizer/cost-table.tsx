import { familyOf } from "../analysis/method.ts";
import { type Cost, costOf, type Need } from "../design/cost.ts";
import { seeksLikeness, sizeTest } from "../design/size-test.ts";
import type { Plan } from "../model/plan.ts";
import { adviceWords } from "../words/en/organizer-advice.ts";
import { splitText } from "../words/en/organizer-people.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { NumberField } from "./number-field.tsx";
import { changeServing } from "./plan-edit.ts";
import { useCosts, type Way } from "./use-costs.ts";
import type { Draft } from "./use-draft.ts";

const { cost: words } = adviceWords;

/** What the plan takes, in people and food and time, beside what other methods would take to find the same. */
export function CostTable({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { chance, own, others } = useCosts(plan);
  const { portionGrams, warmUp } = plan.serving;
  return (
    <div class="costs">
      <h3>{words.heading}</h3>
      <div class="row">
        <NumberField
          id="cost-portion"
          label={planWords.samples.portion}
          unit={planWords.samples.grams}
          value={portionGrams}
          low={0.1}
          high={1000}
          mayBeEmpty
          onValue={(grams) => edit((before) => changeServing(before, { portionGrams: grams }))}
        />
        <NumberField
          id="cost-seats"
          label={words.seats}
          value={plan.pace.seats}
          low={1}
          high={5000}
          whole
          mayBeEmpty
          onValue={(seats) => edit((before) => ({ ...before, pace: { ...before.pace, seats } }))}
        />
      </div>
      <table>
        <caption>{captionOf(plan)}</caption>
        <thead>
          <tr>
            <th scope="col">{words.columns.way}</th>
            {measures.map((measure) => (
              <th key={measure} scope="col" class="number">
                {words.columns[measure]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <Row
            mine
            label={words.now(plan.method)}
            beside={chance === null ? "" : words.nowChance(chance)}
            people={plan.people}
            cost={costOf(plan, plan.people)}
          />
          {own.need?.by === "as-planned" ? null : <WayRow way={own} label={words.enough(plan.method)} />}
          {others.map((way) => (
            <WayRow key={way.plan.method} way={way} label={words.other(way.plan)} />
          ))}
        </tbody>
      </table>
      <p class="fine">{words.note(warmUp, sizeTest(plan) !== null)}</p>
    </div>
  );
}

const measures = ["people", "trays", "cups", "food", "minutes", "waves"] as const;

function WayRow({ way: { plan, need }, label }: { way: Way; label: string }) {
  if (need === null) return <Row label={label} beside="" people={words.counting} cost={null} />;
  if (need.by === "none") return <Row label={label} beside="" people={words.tooMany} cost={null} />;
  const people = peopleOf(need, plan);
  const beside = need.by === "as-planned" ? words.noNumber : "";
  return <Row label={label} beside={beside} people={people} cost={costOf(plan, people)} />;
}

/** Where no number follows from the method, it is the plan's own, as it is now. */
const peopleOf = (need: Exclude<Need, { by: "none" }>, plan: Plan): number =>
  need.by === "as-planned" ? plan.people : need.people;

type RowProps = { label: string; beside: string; people: number | string; cost: Cost | null; mine?: boolean };

function Row({ label, beside, people, cost, mine }: RowProps) {
  const cells: Record<(typeof measures)[number], string> = {
    people: String(people),
    trays: cost ? String(cost.trays) : words.none,
    cups: cost ? String(cost.cups) : words.none,
    food: cost?.grams == null ? words.none : words.food(cost.grams),
    minutes: cost ? words.minutes(cost.minutes, cost.sittings) : words.none,
    waves: cost?.waves == null ? words.none : String(cost.waves),
  };
  return (
    <tr class={mine ? "mine" : undefined}>
      <th scope="row">
        {label} {beside ? <span class="fine">{beside}</span> : null}
      </th>
      {measures.map((measure) => (
        <td key={measure} class="number">
          <span class="narrow-only">{words.columns[measure]} </span>
          {cells[measure]}
        </td>
      ))}
    </tr>
  );
}

/** What all ways are held to: to find what the plan seeks, or to show likeness within its limit, four times in five. */
function captionOf(plan: Plan): string {
  const test = sizeTest(plan);
  if (test === null) {
    const sought = plan.method === "line-scale" ? plan.scaleSought : null;
    return words.caption(sought ? words.points(sought.difference) : null);
  }
  if (seeksLikeness(plan)) return words.captionLikeness(distanceText(test.dPrime(test.falseAt)));
  if (plan.method === "paired-preference" && familyOf(plan.method, plan.sides) === "pair") {
    return words.caption(words.split(splitText(test.soughtAt)));
  }
  return words.caption(distanceText(test.unit === "d-prime" ? test.soughtAt : test.dPrime(test.soughtAt)));
}

const distanceText = (distance: number | null): string =>
  distance === null ? words.thatMuch : words.distance(distance);
