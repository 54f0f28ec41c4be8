import { comparisonKinds } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { comparisonWords as words } from "../words/en/organizer-comparisons.ts";
import { Choice, Select, TextField } from "./fields.tsx";
import {
  changeFactor,
  changePair,
  levels,
  withCell,
  withComparisons,
  withoutPair,
  withPair,
  withReferenceProduct,
} from "./plan-comparisons.ts";
import type { Draft } from "./use-draft.ts";

const mostPairs = 15;
const both = [0, 1] as const;

/** Which differences between the products are judged. It stands with the products. */
export function ComparisonFields({ draft }: { draft: Draft }) {
  const { comparisons } = draft.plan;
  return (
    <>
      <Choice
        id="comparison-kind"
        legend={words.legend}
        hint={words.hint}
        options={comparisonKinds.map((kind) => ({ value: kind, ...words.kinds[kind] }))}
        value={comparisons.kind}
        onChange={(kind) => draft.edit((before) => withComparisons(before, kind))}
      />
      {comparisons.kind === "reference" ? (
        <Choice
          id="comparison-reference"
          legend={words.reference}
          options={productsOf(draft)}
          value={comparisons.product}
          onChange={(id) => draft.edit((before) => withReferenceProduct(before, id))}
        />
      ) : null}
      {comparisons.kind === "planned" ? <Pairs draft={draft} pairs={comparisons.pairs} /> : null}
      {comparisons.kind === "two-factors" ? <Factors draft={draft} comparisons={comparisons} /> : null}
    </>
  );
}

type Planned = Extract<Draft["plan"]["comparisons"], { kind: "planned" }>;
type TwoFactors = Extract<Draft["plan"]["comparisons"], { kind: "two-factors" }>;

const nameOf = (name: string, at: number): string => name.trim() || choiceWords.roles.unnamed(at);
const productsOf = ({ plan }: Draft) =>
  plan.products.map(({ id, name }, at) => ({ value: id, label: nameOf(name, at), hint: "" }));

function Pairs({ draft, pairs }: { draft: Draft; pairs: Planned["pairs"] }) {
  const { edit } = draft;
  const options = [{ value: "", label: words.notChosen }, ...productsOf(draft)];
  return (
    <>
      {pairs.map(({ first, second }, at) => (
        // a pair has no name of its own: its place is all there is of it
        <fieldset class="group" key={at}>
          <legend class="label">{words.pair(at)}</legend>
          <Select
            id={`comparison-${at}-first`}
            label={words.pairFirst(at)}
            value={first ?? ""}
            options={options}
            onChange={(id) => edit((before) => changePair(before, at, { first: id || null }))}
          />
          <Select
            id={`comparison-${at}-second`}
            label={words.pairSecond(at)}
            value={second ?? ""}
            options={options}
            onChange={(id) => edit((before) => changePair(before, at, { second: id || null }))}
          />
          <button
            type="button"
            class="quiet"
            onClick={() => {
              edit((before) => withoutPair(before, at), words.removed(at));
              focusSoon("comparison-add");
            }}
          >
            {words.remove(at)}
          </button>
        </fieldset>
      ))}
      {pairs.length < mostPairs ? (
        <p>
          <button
            type="button"
            id="comparison-add"
            onClick={() => {
              edit(withPair);
              focusSoon(`comparison-${pairs.length}-first`);
            }}
          >
            {words.add}
          </button>
        </p>
      ) : null}
    </>
  );
}

function Factors({ draft, comparisons }: { draft: Draft; comparisons: TwoFactors }) {
  return (
    <>
      {both.map((at) => (
        <FactorFields key={at} draft={draft} at={at} factor={comparisons.factors[at]} />
      ))}
      <h3>{words.cells}</h3>
      {draft.plan.products.map(({ id, name }, product) => (
        <CellFields
          key={id}
          draft={draft}
          id={id}
          name={nameOf(name, product)}
          product={product}
          comparisons={comparisons}
        />
      ))}
      <p class="fine after">{words.means}</p>
    </>
  );
}

type FactorProps = { draft: Draft; at: 0 | 1; factor: TwoFactors["factors"][number] };

function FactorFields({ draft, at, factor }: FactorProps) {
  const change = (what: Parameters<typeof changeFactor>[2]) => draft.edit((before) => changeFactor(before, at, what));
  return (
    <fieldset class="group">
      <legend class="label">{words.factorName(at)}</legend>
      <TextField
        id={`factor-${at}-name`}
        label={words.factorField(at)}
        hint={words.factorHint(at)}
        value={factor.name}
        onInput={(name) => change({ name })}
      />
      {both.map((level) => (
        <TextField
          key={level}
          id={`factor-${at}-level-${level}`}
          label={words.level(factor.name, level)}
          hint={words.levelHint(at, level)}
          value={factor.levels[level]}
          onInput={(word) => change({ level: { at: level, word } })}
        />
      ))}
    </fieldset>
  );
}

type CellProps = { draft: Draft; id: string; name: string; product: number; comparisons: TwoFactors };

function CellFields({ draft, id, name, product, comparisons }: CellProps) {
  const cell = comparisons.cells.find((one) => one.product === id);
  return (
    <div class="cells">
      {both.map((at) => {
        const side = at === 0 ? "first" : "second";
        const factor = comparisons.factors[at];
        return (
          <Choice
            key={at}
            id={`cell-${product}-${at}`}
            legend={words.cell(name, factor.name.trim() || words.factorName(at))}
            options={levels.map((value, level) => ({
              value,
              label: factor.levels[level]?.trim() || words.unnamedLevel(level),
              hint: "",
            }))}
            value={cell?.[side] ?? null}
            onChange={(level) => draft.edit((before) => withCell(before, id, side, level))}
          />
        );
      })}
    </div>
  );
}
