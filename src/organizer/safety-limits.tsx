import type { CookingLimit, SafetyLimit } from "../model/safety-limit.ts";
import { isHolding, usualLimits } from "../model/safety-limit.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { useLead } from "./app-context.ts";
import { useKitchen } from "./facts.ts";
import { Check } from "./fields.tsx";
import { applyFood, differsFromTable, holdsTo, offeredFoods, takeTable, withUncooked } from "./kitchen-limits.ts";
import { kitchenAddress } from "./route.ts";
import type { Draft } from "./use-draft.ts";

const words = limitWords.plan;

/** What of the kitchen's table applies to this food: cooking is chosen, holding applies to all of it. */
export function SafetyLimits({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const state = useKitchen(useLead().store);
  const table = state?.current?.kitchen.limits ?? usualLimits();
  const unchecked = plan.limits.filter(({ checked }) => checked === "").length;
  return (
    <>
      <h3>{words.heading}</h3>
      <p class="fine">
        {words.law} <a href={kitchenAddress}>{words.toKitchen}</a>
      </p>
      <CookingFields draft={draft} table={table} />
      <p class="label holding">{words.holding}</p>
      <Holding limits={plan.limits} />
      <Between plan={plan} />
      {unchecked > 0 ? <p class="note">{words.unchecked(unchecked)}</p> : null}
      {state !== undefined && differsFromTable(plan, table) ? (
        <p class="after-row">
          <span>{words.changed}</span>
          <button type="button" onClick={() => edit((before) => takeTable(before, table), words.taken)}>
            {words.take}
          </button>
        </p>
      ) : null}
    </>
  );
}

type CookingProps = { draft: Draft; table: readonly SafetyLimit[] };

function CookingFields({ draft, table }: CookingProps) {
  const { plan, edit } = draft;
  return (
    <fieldset class="field choice" id="safety-cooking-limit" tabIndex={-1} aria-describedby="cooking-limit-hint">
      <legend class="label">{words.cooking}</legend>
      <p class="fine" id="cooking-limit-hint">
        {words.below}
      </p>
      {offeredFoods(plan, table).map((rows) => {
        const food = rows[0]?.food ?? "";
        return (
          <Check
            key={food}
            id={`cooking-${food.trim().toLowerCase().replaceAll(/\W+/g, "-")}`}
            label={<Food rows={rows} applies={holdsTo(plan, rows)} />}
            checked={holdsTo(plan, rows)}
            onChange={(applies) => edit((before) => applyFood(before, rows, applies, table))}
          />
        );
      })}
      <Check
        id="cooking-none"
        label={
          <>
            {words.uncooked} <span class="fine">{words.uncookedHint}</span>
          </>
        }
        checked={plan.uncooked}
        onChange={(uncooked) => edit((before) => withUncooked(before, uncooked))}
      />
    </fieldset>
  );
}

/** A food with its limits; where they come from is said of those that apply. */
function Food({ rows, applies }: { rows: readonly CookingLimit[]; applies: boolean }) {
  return (
    <>
      {limitWords.food(rows[0]?.food ?? "")}: {limitWords.either(rows)}
      {applies ? <span class="fine origin">{originsOf(rows)}</span> : null}
    </>
  );
}

const originsOf = (rows: readonly SafetyLimit[]): string =>
  [...new Set(rows.map(({ source, checked }) => limitWords.origin(source, checked)))].join("; ");

function Holding({ limits }: { limits: readonly SafetyLimit[] }) {
  const rows = limits.filter(isHolding);
  if (rows.length === 0) return <p class="fine">{words.noHolding}</p>;
  return (
    <>
      <ul class="plain">
        {rows.map((limit, at) => (
          <li key={at}>{limitWords.text(limit)}</li>
        ))}
      </ul>
      <p class="fine">{originsOf(rows)}</p>
    </>
  );
}

/** Served neither hot nor cold enough to be held so: time alone keeps it safe. */
function Between({ plan }: { plan: Draft["plan"] }) {
  const { servingCelsius } = plan.serving;
  const hot = plan.limits.flatMap((limit) => (limit.kind === "hot-holding" ? [limit.celsius] : []));
  const cold = plan.limits.flatMap((limit) => (limit.kind === "cold-holding" ? [limit.celsius] : []));
  if (servingCelsius === null || hot.length === 0 || servingCelsius >= Math.max(...hot)) return null;
  if (cold.length > 0 && servingCelsius <= Math.min(...cold)) return null;
  return (
    <p class="note">{words.between(servingCelsius, Math.max(...hot), cold.length > 0 ? Math.min(...cold) : null)}</p>
  );
}
