import { shapeOf, sidesFor } from "../model/method.ts";
import { choiceWords } from "../words/en/organizer-choice.ts";
import { Choice } from "./fields.tsx";
import { ControlField } from "./part-chew.tsx";
import { Predicted } from "./part-ranking.tsx";
import { changeProperty, withKnown, withReference } from "./plan-choice.ts";
import type { Draft } from "./use-draft.ts";

const words = choiceWords.roles;

/** Which product plays which part, where the method gives them parts: it stands with the products. */
export function Roles({ draft }: { draft: Draft }) {
  const { plan } = draft;
  const { reference, property, answer } = shapeOf(plan.method);
  const either = sidesFor(plan.method, plan.sides) === "two";
  return (
    <>
      {reference === "R" ? <ReferenceFields draft={draft} /> : null}
      {reference === "A" ? <Known draft={draft} /> : null}
      {answer === "order" ? <Predicted draft={draft} /> : null}
      {answer === "portions" ? <ControlField draft={draft} /> : null}
      {property && !either ? plan.properties.map(({ id }, at) => <Expected key={id} draft={draft} at={at} />) : null}
    </>
  );
}

/** The products to choose from, and what to say while there are none. */
const productsOf = ({ plan }: Draft) => ({
  options: plan.products.map(({ id, name }, at) => ({ value: id, label: name.trim() || words.unnamed(at), hint: "" })),
  missing: plan.products.length === 0 ? words.needsProducts : undefined,
});

function ReferenceFields({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const { kind, product } = plan.reference;
  const { options, missing } = productsOf(draft);
  return (
    <>
      <Choice
        id="samples-reference-kind"
        legend={words.reference}
        options={words.referenceKinds}
        value={kind}
        onChange={(chosen) => edit((before) => withReference(before, { kind: chosen }))}
      />
      {kind === "constant" ? (
        <Choice
          id="samples-reference"
          legend={words.constant}
          hint={missing}
          options={options}
          value={product}
          onChange={(id) => edit((before) => withReference(before, { product: id }))}
        />
      ) : null}
    </>
  );
}

function Known({ draft }: { draft: Draft }) {
  const { options, missing } = productsOf(draft);
  return (
    <Choice
      id="samples-reference"
      legend={words.known}
      hint={missing ?? words.knownHint}
      options={options}
      value={draft.plan.reference.product}
      onChange={(id) => draft.edit((before) => withKnown(before, id))}
    />
  );
}

function Expected({ draft, at }: { draft: Draft; at: number }) {
  const property = draft.plan.properties[at];
  const { options, missing } = productsOf(draft);
  if (!property) return null;
  const { id, comparative, expected } = property;
  return (
    <Choice
      id={`samples-expected-${at}`}
      legend={words.expected(comparative.trim())}
      hint={missing ?? words.expectedHint}
      options={options}
      value={expected}
      onChange={(chosen) => draft.edit((before) => changeProperty(before, id, { expected: chosen }))}
    />
  );
}
