import { useState } from "preact/hooks";
import { differenceHalfWidth } from "../design/interval-width.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { NumberField } from "./number-field.tsx";

const words = planWords.people.width;

/** Numbers of people to compare the chosen one with. */
const sizes = [6, 12, 18, 24, 36, 48];

/** How sure a difference on the line scale will be, were the scatter of the marks known. */
export function Width({ plan }: { plan: Plan }) {
  const [spread, setSpread] = useState(10);
  const products = plan.products.length;
  const of = (people: number) => differenceHalfWidth({ people, products, residualDeviation: spread });
  const { people } = plan;
  const rows = [...new Set([...sizes, ...(people >= 2 ? [people] : [])])].sort((a, b) => a - b);
  return (
    <>
      <NumberField
        id="people-spread"
        label={words.spread}
        hint={words.spreadHint}
        unit={words.points}
        value={spread}
        low={0.1}
        high={50}
        onValue={(value) => value !== null && setSpread(value)}
      />
      {products < 2 ? <p class="lead-in">{words.needsProducts}</p> : null}
      {products >= 2 ? (
        <>
          <p class="lead-in" aria-live="polite">
            {people < 2 ? words.tooFew : words.says(people, of(people))}
          </p>
          <table class="widths">
            <caption class="fine">{words.caption(spread)}</caption>
            <thead>
              <tr>
                <th scope="col" class="number">
                  {planWords.people.columnPeople}
                </th>
                <th scope="col" class="number">
                  {words.column}
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map((count) => (
                <tr key={count} class={count === people ? "mine" : undefined}>
                  <th scope="row" class="number">
                    {count === people ? `${planWords.people.chosen}: ` : ""}
                    {count}
                  </th>
                  <td class="number">{words.pointsOf(of(count))}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      ) : null}
      <p class="fine">{words.noPower}</p>
    </>
  );
}
