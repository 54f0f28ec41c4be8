import { heldOf } from "../design/method.ts";
import { type Bounds, type OrderPlan, orderPlan } from "../design/order-plan.ts";
import type { Plan } from "../model/plan.ts";
import { planWords } from "../words/en/organizer-plan.ts";

const words = planWords.serving.orders;

/** How evenly the people planned spread the serving orders; with places and carry-over counted where every product is on each tray. */
export function Orders({ plan }: { plan: Plan }) {
  const { method, products, people, repeats } = plan;
  const balance = orderPlan(plan, people * repeats);
  return (
    <>
      <h3>{words.heading}</h3>
      {balance === null ? <p class="fine">{words.none}</p> : null}
      {balance ? <p>{dealtWords(plan, balance)}</p> : null}
      {balance && balance.left > 0 ? (
        <p>{(balance.meets ? words.heldUneven : words.uneven)(people * repeats, balance.orders)}</p>
      ) : null}
      {balance && (method === "line-scale" || method === "ranking") ? (
        <>
          <p class="fine">{words.letters(products.map(({ name }) => name.trim()))}</p>
          <div class="balances">
            <Counts
              caption={words.places}
              columns={(balance.places[0] ?? []).map((_, place) => words.place(place + 1))}
              rows={balance.places}
            />
            <Counts
              caption={words.follows}
              columns={products.map((_, before) => words.after(before))}
              rows={balance.follows}
            />
            {balance.meets ? (
              <Counts
                caption={words.meets}
                columns={products.map((_, other) => words.other(other))}
                rows={balance.meets}
              />
            ) : null}
          </div>
        </>
      ) : null}
    </>
  );
}

/** How the orders are dealt, in a sentence or three. */
export function dealtWords(plan: Plan, { orders, rounds, left, meets }: OrderPlan): string {
  const held = heldOf(plan);
  return meets && held !== null
    ? words.held(held, plan.products.length, orders, plan.people * plan.repeats)
    : words.dealt(orders, rounds, left);
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
