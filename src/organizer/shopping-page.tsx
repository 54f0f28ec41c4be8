import { plannedTrays } from "../design/trays.ts";
import type { Plan, Product } from "../model/plan.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import { shoppingWords as words } from "../words/en/organizer-shopping.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { useLead } from "./app-context.ts";
import { fetchClaims, useClaims, usePolling } from "./facts.ts";
import { Choice, Select, TextField } from "./fields.tsx";
import { type MeasuredLoss, measuredLosses } from "./ledger-losses.ts";
import { NumberField } from "./number-field.tsx";
import { Page } from "./page.tsx";
import { PrepList } from "./paper-prep.tsx";
import { changeProduct } from "./plan-edit.ts";
import { studyAddress } from "./route.ts";
import type { StudyProps } from "./study.tsx";
import { useDraft } from "./use-draft.ts";
import { usePaperSize } from "./use-print.ts";

const everyMs = 15_000;

/** What to buy and prepare, made while the plan is not locked: nothing of it is secret on the lead's device then. */
export function ShoppingPage({ id, state }: StudyProps) {
  const lead = useLead();
  const { plan, edit, flush } = useDraft(id, state);
  const claims = useClaims(lead.store);
  usePolling(lead, () => fetchClaims(lead), everyMs, [lead.who.token]);
  const { size, setSize } = usePaperSize(() => undefined);
  const measured = measuredLosses((claims ?? []).flatMap(({ state: { current } }) => (current ? [current.claim] : [])));
  const missing = whyNot(plan);
  return (
    <>
      <Page heading={words.heading} windowTitle={`${words.heading}: ${plan.title.trim()}`}>
        <p class="fine under">
          <a href={studyAddress(id)}>{words.back}</a>
        </p>
        <p class="lead-in">{words.lead}</p>
        <h2>{words.losses}</h2>
        <p>{words.lossesHint}</p>
        <div class="fields" onFocusOut={() => void flush()}>
          {plan.products.map((product, at) => (
            <Losses
              key={product.id}
              product={product}
              at={at}
              measured={measured}
              set={(change) => edit((before) => changeProduct(before, product.id, change))}
            />
          ))}
        </div>
        {missing === null ? (
          <div class="print-tools">
            <Choice
              id="paper-size"
              legend={paperWords.size}
              options={paperWords.sizes}
              value={size}
              onChange={setSize}
            />
            <p>
              <button type="button" class="next" onClick={() => window.print()}>
                {paperWords.print}
              </button>
            </p>
          </div>
        ) : (
          <p class="note">
            {words.notYet} {missing}
          </p>
        )}
      </Page>
      {missing === null ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, so the keyboard must reach it
        <section class="desk" aria-label={paperWords.preview} tabIndex={0}>
          <PrepList lock={{ plan, packet: null }} size={size} />
        </section>
      ) : null}
    </>
  );
}

/** The sentence that says what a plan lacks for the list; null where it lacks nothing. */
function whyNot(plan: Plan): string | null {
  try {
    plannedTrays(plan);
    return null;
  } catch (thrown) {
    return sentenceOf(thrown);
  }
}

type LossesProps = {
  product: Product;
  at: number;
  measured: readonly MeasuredLoss[];
  set: (change: Partial<Product>) => void;
};

function Losses({ product, at, measured, set }: LossesProps) {
  const { cookLoss = null, cookLossFrom = "", trimLoss = null, cookedOver = null } = product;
  const taken = measured.findIndex(({ percent, from }) => percent === cookLoss && from === cookLossFrom);
  const percent = { low: 0, high: 95, mayBeEmpty: true };
  return (
    <fieldset class="group">
      <legend class="label">{words.product(product.name, at)}</legend>
      {measured.length > 0 ? (
        <Select
          id={`loss-${at}-ledger`}
          label={words.take}
          value={taken < 0 ? "" : String(taken)}
          options={[
            { value: "", label: words.takeNone },
            ...measured.map((each, place) => ({
              value: String(place),
              label: words.takenLabel(each.percent, each.from),
            })),
          ]}
          onChange={(place) => {
            const found = place === "" ? null : measured[Number(place)];
            set({ cookLoss: found?.percent ?? null, cookLossFrom: found?.from ?? "" });
          }}
        />
      ) : null}
      <div class="row">
        <NumberField
          id={`loss-${at}-cook`}
          label={words.cookLoss}
          unit={words.ofRaw}
          value={cookLoss}
          {...percent}
          // what a ledger said is not what somebody types over it
          onValue={(loss) => set({ cookLoss: loss, ...(taken < 0 ? {} : { cookLossFrom: "" }) })}
        />
        <NumberField
          id={`loss-${at}-trim`}
          label={words.trimLoss}
          unit={words.ofBought}
          value={trimLoss}
          {...percent}
          onValue={(loss) => set({ trimLoss: loss })}
        />
      </div>
      <TextField
        id={`loss-${at}-from`}
        label={words.from}
        hint={words.fromHint}
        value={cookLossFrom}
        onInput={(from) => set({ cookLossFrom: from })}
      />
      <NumberField
        id={`loss-${at}-over`}
        label={words.over}
        hint={words.overHint}
        unit={words.ofServed}
        value={cookedOver}
        low={0}
        high={300}
        mayBeEmpty
        onValue={(over) => set({ cookedOver: over })}
      />
    </fieldset>
  );
}
