import { useState } from "preact/hooks";
import { focusSoon } from "../ui/focus.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { useLead } from "./app-context.ts";
import { useKitchen } from "./facts.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { changeRanking, movePredicted, predictedOf, withKitchenProperty, withPrediction } from "./plan-ranking.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.ranking;

/** What a ranking puts in order, in the words of its question. */
export function PartRanking({ draft }: { draft: Draft }) {
  const { name, least, most, definition, liking } = draft.plan.ranking;
  const field = (what: "name" | "least" | "most" | "definition") => ({
    id: `ranking-${what}`,
    onInput: (typed: string) => draft.edit((before) => changeRanking(before, { [what]: typed })),
  });
  return (
    <>
      <h3>{words.heading}</h3>
      <FromKitchen draft={draft} />
      <TextField {...field("name")} label={words.name} hint={words.nameHint} value={name} />
      <div class="pair">
        <TextField {...field("least")} label={words.least} hint={words.leastHint} value={least} />
        <TextField {...field("most")} label={words.most} hint={words.mostHint} value={most} />
      </div>
      <TextField
        {...field("definition")}
        label={words.definition}
        hint={words.definitionHint}
        rows={2}
        value={definition}
      />
      <Check
        id="ranking-liking"
        label={words.liking}
        checked={liking}
        onChange={(checked) => draft.edit((before) => changeRanking(before, { liking: checked }))}
      />
      <p class="fine">{words.likingHint}</p>
      <p class="after fine">{words.predictedElsewhere}</p>
    </>
  );
}

/** The kitchen's properties, each a way to fill the fields below; nothing where it has none. */
function FromKitchen({ draft }: { draft: Draft }) {
  const { store } = useLead();
  const { current } = useKitchen(store) ?? { current: null };
  const named = (current?.kitchen.properties ?? []).filter(
    ({ name }, at, all) => name.trim() !== "" && all.findIndex((other) => other.name.trim() === name.trim()) === at,
  );
  const free = named.filter(({ name }) => name.trim() !== draft.plan.ranking.name.trim());
  if (free.length === 0) return null;
  return (
    <div class="picker">
      <p class="label">{words.pickHeading}</p>
      <ul class="plain">
        {free.map((property) => (
          <li key={property.id}>
            {property.name.trim()}{" "}
            <button
              type="button"
              class="quiet"
              onClick={() => {
                draft.edit((before) => withKitchenProperty(before, property));
                focusSoon("ranking-name");
              }}
            >
              {words.pick}
              <span class="unseen">{words.pickOf(property.name.trim())}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Whether an order of the products was predicted, and which. It stands with the products. */
export function Predicted({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const order = predictedOf(plan);
  const named = plan.products.length > 0;
  return (
    <>
      <Choice
        id="ranking-predicted"
        legend={words.predicted}
        hint={named ? words.predictedHint : words.needsProducts}
        options={named ? words.predictedOptions : words.predictedOptions.slice(0, 1)}
        value={order.length > 0 ? "yes" : "no"}
        onChange={(value) => edit((before) => withPrediction(before, value === "yes"))}
      />
      {order.length > 0 ? <Order draft={draft} order={order} /> : null}
    </>
  );
}

function Order({ draft: { plan, edit }, order }: { draft: Draft; order: readonly string[] }) {
  const [said, setSaid] = useState("");
  const nameOf = (id: string): string => {
    const at = plan.products.findIndex((product) => product.id === id);
    return plan.products[at]?.name.trim() || words.unnamed(at);
  };
  const move = (id: string, at: number, by: -1 | 1): void => {
    edit((before) => movePredicted(before, id, by));
    const to = at + by;
    setSaid(words.moved(nameOf(id), to + 1, order.length));
    // the button that was pressed moved with its product; at an end of the order only the other one is left
    const edge = by < 0 ? to === 0 : to === order.length - 1;
    focusSoon(`predicted-${to}-${(by < 0) === edge ? "later" : "earlier"}`);
  };
  return (
    <div class="group">
      <p class="label" id="predicted-label">
        {words.predictedOrder}
      </p>
      <ol class="predicted" aria-labelledby="predicted-label">
        {order.map((id, at) => (
          <li key={id}>
            <div>
              <span>{nameOf(id)}</span>
              {at > 0 ? (
                <Move
                  id={`predicted-${at}-earlier`}
                  label={words.earlier}
                  name={nameOf(id)}
                  press={() => move(id, at, -1)}
                />
              ) : null}
              {at < order.length - 1 ? (
                <Move
                  id={`predicted-${at}-later`}
                  label={words.later}
                  name={nameOf(id)}
                  press={() => move(id, at, 1)}
                />
              ) : null}
            </div>
          </li>
        ))}
      </ol>
      <p class="unseen" aria-live="polite">
        {said}
      </p>
    </div>
  );
}

function Move(props: { id: string; label: string; name: string; press: () => void }) {
  return (
    <button type="button" id={props.id} class="quiet" onClick={props.press}>
      {props.label}
      <span class="unseen">{words.moveOf(props.name)}</span>
    </button>
  );
}
