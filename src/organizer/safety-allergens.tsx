import { toDeclare } from "../design/open-safety.ts";
import { type Allergen, allergens, usMajorAllergens } from "../model/allergen.ts";
import type { Declaration, Plan } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { allergenNames } from "../words/en/allergens.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { changeDeclaration, type DeclaredAs, declareAllergen, declareNone, withCarrier } from "./plan-edit.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.safety;

/** Allergens of everything that is eaten, the question of a carrier, and the lead's word that all of it is declared. */
export function SafetyAllergens({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  return (
    <>
      <h3>{words.declaration}</h3>
      <p class="fine">{words.declarationHint}</p>
      <CarrierFields draft={draft} />
      {plan.products.length === 0 ? <p class="fine">{words.needsProducts}</p> : null}
      {toDeclare(plan).map((of) => (
        <Declared key={of} draft={draft} of={of} />
      ))}
      {plan.declarations.length > 0 ? <p class="fine">{words.us}</p> : null}
      <Check
        id="safety-complete"
        label={words.complete}
        checked={plan.declarationsComplete}
        onChange={(declarationsComplete) => edit((before) => ({ ...before, declarationsComplete }))}
      />
      <p class="fine">{words.edited}</p>
    </>
  );
}

/** Bread, rice, a sauce: asked, since whoever forgets it forgets its allergens. */
function CarrierFields({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  return (
    <>
      <Choice
        id="safety-carrier"
        legend={words.carrier}
        options={words.carrierOptions}
        value={plan.carrier === null ? null : plan.carrier ? "yes" : "no"}
        onChange={(chosen) => edit((before) => withCarrier(before, { carrier: chosen === "yes" }))}
      />
      {plan.carrier === true ? (
        <TextField
          id="safety-carrier-what"
          label={words.carrierWhat}
          hint={words.carrierWhatHint}
          value={plan.carrierWhat}
          onInput={(carrierWhat) => edit((before) => withCarrier(before, { carrierWhat }))}
        />
      ) : null}
    </>
  );
}

const nameOf = (plan: Plan, of: string): string =>
  plan.products.find(({ id }) => id === of)?.name.trim() || words.of[of] || planWords.samples.letter(0);

/** One thing that is eaten: each allergen contained, perhaps contained, or not; and free text. */
function Declared({ draft, of }: { draft: Draft; of: string }) {
  const { plan, edit } = draft;
  const declaration = plan.declarations.find((each) => each.of === of);
  const name = nameOf(plan, of);
  if (!declaration) {
    return (
      <p class="after-row">
        <button
          type="button"
          id={`declare-${of}`}
          onClick={() => {
            edit((before) => changeDeclaration(before, of, (d) => d));
            focusSoon(`declare-${of}`);
          }}
        >
          {words.declare(name)}
        </button>
        <span class="fine">{words.undeclaredShort}</span>
      </p>
    );
  }
  return (
    <details class="declared" open={plan.declarations.at(-1)?.of === of && !plan.declarationsComplete}>
      <summary id={`declare-${of}`}>
        {name}: <span class="soft">{contentOf(declaration)}</span>
      </summary>
      <AllergenTable
        name={name}
        declaration={declaration}
        onDeclare={(allergen, as) =>
          edit((before) => changeDeclaration(before, of, (d) => declareAllergen(d, allergen, as)))
        }
      />
      <Check
        id={`none-${of}`}
        label={words.none(name)}
        checked={declaration.none}
        onChange={(none) => edit((before) => changeDeclaration(before, of, (d) => declareNone(d, none)))}
      />
      <TextField
        id={`other-${of}`}
        label={words.other}
        value={declaration.other}
        onInput={(other) => edit((before) => changeDeclaration(before, of, (d) => ({ ...d, other })))}
      />
    </details>
  );
}

function contentOf({ contains, mayContain, other, none }: Declaration): string {
  const nothing = contains.length + mayContain.length === 0 && other.trim() === "";
  if (nothing && !none) return words.undeclaredShort;
  return planWords.summaries.safety(contains, mayContain, other.trim() === "" ? [] : [other.trim()]);
}

type TableProps = {
  name: string;
  declaration: Declaration;
  onDeclare: (allergen: Allergen, as: DeclaredAs) => void;
};

// two boxes and no "free of" that would be ticked before anybody looked
const columns = ["contains", "mayContain"] as const satisfies readonly DeclaredAs[];

function AllergenTable({ name, declaration, onDeclare }: TableProps) {
  const standing = (allergen: Allergen): DeclaredAs =>
    declaration.contains.includes(allergen)
      ? "contains"
      : declaration.mayContain.includes(allergen)
        ? "mayContain"
        : "free";
  return (
    <table class="allergens">
      <caption class="unseen">{name}</caption>
      <thead>
        <tr>
          <th scope="col">{words.allergen}</th>
          {columns.map((column) => (
            <th key={column} scope="col">
              {words[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {allergens.map((allergen) => (
          <tr key={allergen}>
            <th scope="row">
              {allergenNames[allergen]}
              {usMajorAllergens.includes(allergen) ? "\u00a0*" : ""}
            </th>
            {columns.map((column) => (
              <td key={column}>
                <label class="cell">
                  <input
                    type="checkbox"
                    checked={standing(allergen) === column}
                    onChange={(event) => onDeclare(allergen, event.currentTarget.checked ? column : "free")}
                  />
                  <span class="unseen">
                    {allergenNames[allergen]}: {words[column]}
                  </span>
                </label>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
