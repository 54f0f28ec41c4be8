import { applyingCautions } from "../design/open-safety.ts";
import { type Caution, cautions } from "../model/attribute.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, TextField } from "./fields.tsx";
import { withCaution } from "./plan-edit.ts";
import type { Draft } from "./use-draft.ts";

const words = planWords.safety;

/** Cautions by food and method: each with its text and the word that it was read. */
export function SafetyCautions({ draft }: { draft: Draft }) {
  return (
    <>
      <h3>{words.cautions}</h3>
      {cautions.map((caution) => (
        <CautionFields key={caution} draft={draft} caution={caution} />
      ))}
    </>
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
          onChange={(on) => edit((before) => withCaution(before, caution, on))}
        />
      )}
      {applies ? (
        <>
          <p class="text">{text}</p>
          {caution === "undercooked" ? (
            <TextField
              id="safety-responsible"
              label={limitWords.plan.responsible}
              hint={limitWords.plan.responsibleHint}
              value={plan.responsible}
              onInput={(responsible) => edit((before) => ({ ...before, responsible }))}
            />
          ) : null}
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
