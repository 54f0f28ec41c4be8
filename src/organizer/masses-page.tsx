import { useState } from "preact/hooks";
import type { MassSource } from "../model/measured.ts";
import type { Product } from "../model/plan.ts";
import { useReading } from "../ui/use-store.ts";
import { massesWords as words } from "../words/en/organizer-masses.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { studiesWithResults } from "./claim-results.ts";
import { fetchClaims, readStudies, useClaims, usePolling, watchOf } from "./facts.ts";
import { Check, Select } from "./fields.tsx";
import { chewStudies, ledgerChoices, type MassChoice, portionChoices, speaksOf } from "./masses-sources.ts";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { claimsAddress } from "./route.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { planOf } from "./study-stage.ts";

const everyMs = 15_000;

/** Puts masses beside the answers of a locked study: they stay where they are, the study gets a copy. */
export function MassesPage({ id, state }: StudyProps) {
  const lead = useLead();
  const claims = useClaims(lead.store);
  usePolling(lead, () => fetchClaims(lead), everyMs, [lead.who.token]);
  const [done, setDone] = useState(false);
  const products = planOf(state)?.products ?? [];
  const studies = useReading(
    async () => studiesWithResults(lead.store, chewStudies(await readStudies(lead.store))),
    watchOf(lead.store),
    [],
  );
  const choices =
    claims === undefined || studies === undefined
      ? undefined
      : [...ledgerChoices(claims, products), ...portionChoices(studies, id, products)];
  const sources = state.masses?.body.sources ?? [];
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{words.lead}</p>
      <p>{words.copy}</p>
      <p>{state.masses && sources.length > 0 ? words.now(sources.length, state.masses.at) : words.nowNone}</p>
      {state.otherMasses.length > 0 ? <p class="note">{words.others}</p> : null}
      {state.reveal ? <p class="note">{words.openKey}</p> : null}
      {done ? (
        <p class="note" role="status">
          {words.done}
        </p>
      ) : null}
      {choices === undefined ? null : choices.length === 0 && sources.length === 0 ? (
        <p>
          {words.none} <a href={claimsAddress}>{words.toClaims}</a>
        </p>
      ) : (
        <MassesForm key={state.masses?.id} {...{ id, state, choices, products }} onDone={() => setDone(true)} />
      )}
    </Page>
  );
}

type FormProps = Pick<StudyProps, "id" | "state"> & {
  choices: readonly MassChoice[];
  products: readonly Product[];
  onDone: () => void;
};

/** Which masses were noted before, by what they are of. */
const isOf = (one: MassSource, other: MassSource): boolean => one.kind === other.kind && one.title === other.title;

function MassesForm({ id, state, choices, products, onDone }: FormProps) {
  const lead = useLead();
  const doing = useDoing();
  const before = state.masses?.body.sources ?? [];
  const [chosen, setChosen] = useState<ReadonlySet<string>>(
    () => new Set(choices.filter(({ source }) => before.some((each) => isOf(each, source))).map((each) => each.id)),
  );
  const [named, setNamed] = useState<ReadonlyMap<string, MassSource["products"]>>(
    () =>
      new Map(
        choices.flatMap((each) => {
          const known = before.find((source) => isOf(source, each.source));
          return known ? [[each.id, known.products] as const] : [];
        }),
      ),
  );
  const [tried, setTried] = useState(false);
  const taken = choices
    .filter((each) => chosen.has(each.id))
    .map((each) => ({ ...each, source: { ...each.source, products: productsOf(each) } }));
  const unclear = taken.filter(({ source }) => !speaksOf(source)).map((each) => each.id);

  function productsOf({ id: choice, source }: MassChoice): MassSource["products"] {
    const said = named.get(choice) ?? source.products;
    return source.products.map(
      ({ named: name, product }) => said.find((each) => each.named === name) ?? { named: name, product },
    );
  }

  const submit = (): void => {
    setTried(true);
    if (unclear.length > 0) return;
    doing.run(async () => {
      const body = {
        base: state.masses?.id ?? null,
        merged: state.otherMasses.map((other) => other.id),
        sources: taken.map(({ source }) => source),
      };
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "masses-noted", body });
      setTried(false);
      onDone();
    });
  };

  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <fieldset class="choice">
        <legend>{words.which}</legend>
        {choices.map((choice) => (
          <div key={choice.id}>
            <Check
              id={`masses-${choice.id}`}
              label={choice.label}
              checked={chosen.has(choice.id)}
              onChange={(checked) => {
                const others = [...chosen].filter((each) => each !== choice.id);
                setChosen(new Set(checked ? [...others, choice.id] : others));
              }}
            />
            {chosen.has(choice.id) ? (
              <div class="within">
                {productsOf(choice).map(({ named: name, product }, at) => (
                  <Select
                    key={name}
                    id={`masses-${choice.id}-${at}`}
                    label={words.is(name)}
                    value={product ?? ""}
                    options={[
                      { value: "", label: words.noProduct },
                      ...products.map((each) => ({ value: each.id, label: each.name })),
                    ]}
                    onChange={(value) => {
                      const said = productsOf(choice).map((each) =>
                        each.named === name ? { ...each, product: value || null } : each,
                      );
                      setNamed(new Map([...named, [choice.id, said]]));
                    }}
                    problem={tried && at === 0 && unclear.includes(choice.id) ? words.tooFew : null}
                  />
                ))}
              </div>
            ) : null}
          </div>
        ))}
      </fieldset>
      <ProblemNote thrown={doing.thrown} />
      <p>
        <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
          {taken.length === 0 ? words.submitNone : words.submit}
        </button>
      </p>
    </form>
  );
}
