import { type Bounds, orderPlan } from "../design/order-plan.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";

const words = planWords.serving.orders;

/** How evenly the people planned spread the serving orders; for the line scale with places and carry-over counted. */
export function Orders({ plan }: { plan: Plan }) {
  const { method, products, people, repeats } = plan;
  const balance = orderPlan(plan, people * repeats);
  return (
    <>
      <h3>{words.heading}</h3>
      {balance === null ? <p class="fine">{words.none}</p> : null}
      {balance ? <p>{words.dealt(balance.orders, balance.rounds, balance.left)}</p> : null}
      {balance && balance.left > 0 ? <p>{words.uneven(people * repeats, balance.orders)}</p> : null}
      {balance && method === "line-scale" ? (
        <>
          <p class="fine">{words.letters(products.map(({ name }) => name.trim()))}</p>
          <div class="balances">
            <Counts
              caption={words.places}
              columns={products.map((_, place) => words.place(place + 1))}
              rows={balance.places}
            />
            <Counts
              caption={words.follows}
              columns={products.map((_, before) => words.after(before))}
              rows={balance.follows}
            />
          </div>
        </>
      ) : null}
    </>
  );
}

function Counts({ caption, columns, rows }: { caption: string; columns: string[]; rows: (Bounds | null)[][] }) {
  return (
    <table class="counts">
      <caption class="fine">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{words.product}</th>
          {columns.map((column) => (
            <th key={column} scope="col" class="number">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, product) => (
          <tr key={words.letter(product)}>
            <th scope="row">{words.letter(product)}</th>
            {row.map((bounds, at) => (
              <td key={columns[at]} class="number">
                {bounds === null ? words.itself : words.times(bounds.least, bounds.most)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
