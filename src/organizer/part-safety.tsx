import { applyingCautions } from "../design/readiness.ts";
import { type Allergen, allergens, usMajorAllergens } from "../model/allergen.ts";
import { type Caution, cautions } from "../model/attribute.ts";
import type { Declaration, Plan } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { allergenNames } from "../words/en/allergens.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, TextField } from "./fields.tsx";
import {
  changeDeclaration,
  type DeclaredAs,
  declarables,
  declareAllergen,
  declareNone,
  withoutDeclaration,
} from "./plan-edit.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.safety;

/** Part 6: what is in the food, and what the kitchen has to look after. */
export function PartSafety({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  return (
    <>
      <p class="law">{words.law}</p>
      <h3>{words.declaration}</h3>
      <p class="fine">{words.declarationHint}</p>
      {plan.products.length === 0 ? <p class="fine">{words.needsProducts}</p> : null}
      {declarables(plan).map((of) => (
        <Declared key={of} draft={draft} of={of} />
      ))}
      <CarrierLine draft={draft} />
      <p class="fine">{words.us}</p>
      <Check
        id="safety-complete"
        label={words.complete}
        checked={plan.declarationsComplete}
        onChange={(declarationsComplete) => edit((before) => ({ ...before, declarationsComplete }))}
      />
      <p class="fine">{words.edited}</p>
      <h3>{words.cautions}</h3>
      {cautions.map((caution) => (
        <CautionFields key={caution} draft={draft} caution={caution} />
      ))}
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

function CarrierLine({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const there = plan.declarations.some(({ of }) => of === "carrier");
  return (
    <p>
      <button
        type="button"
        class="quiet"
        onClick={() =>
          there
            ? edit((before) => withoutDeclaration(before, "carrier"), words.removedCarrier)
            : edit((before) => changeDeclaration(before, "carrier", (d) => d))
        }
      >
        {there ? words.removeCarrier : words.addCarrier}
      </button>
    </p>
  );
}

/** Hygiene and choking always; the others when the lead says that they apply. Each with its text and "read". */
function CautionFields({ draft, caution }: { draft: Draft; caution: Caution }) {
  const { plan, edit } = draft;
  const { name, text } = words.cautionTexts[caution];
  const always = caution === "hygiene" || caution === "choking";
  const applies = applyingCautions(plan).includes(caution);
  const toggled = (list: Caution[], on: boolean) =>
    cautions.filter((each) => (each === caution ? on : list.includes(each)));
  return (
    <div class="caution">
      {always ? (
        <p class="label">{name}</p>
      ) : (
        <Check
          id={`applies-${caution}`}
          label={words.applies(name)}
          checked={applies}
          onChange={(on) => edit((before) => ({ ...before, cautionsApplying: toggled(before.cautionsApplying, on) }))}
        />
      )}
      {applies ? (
        <>
          <p class="text">{text}</p>
          <Check
            id={`caution-${caution}`}
            label={words.read}
            checked={plan.cautionsRead.includes(caution)}
            onChange={(on) => edit((before) => ({ ...before, cautionsRead: toggled(before.cautionsRead, on) }))}
          />
        </>
      ) : null}
    </div>
  );
}
