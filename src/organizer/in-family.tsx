import { choiceWords as words } from "../words/en/organizer-choice.ts";
import { Check } from "./fields.tsx";

type Props = { id: string; checked: boolean; onChange: (inFamily: boolean) => void };

/** Does a further property count like the first, and share the risk with it? */
export function InFamily({ id, checked, onChange }: Props) {
  return (
    <div class="field">
      <Check id={id} label={words.family} checked={checked} onChange={onChange} />
      <p class="fine">{words.familyHint}</p>
    </div>
  );
}
