import { type Plannable, plannable } from "../model/method.ts";
import { adviceWords } from "../words/en/organizer-advice.ts";
import { choiceWords, methodGroups } from "../words/en/organizer-choice.ts";
import { planWords } from "../words/en/organizer-plan.ts";

const words = planWords.method;

type Props = {
  value: Plannable;
  /** The one that the planner advises; null while it advises none. */
  proposed: Plannable | null;
  onChange: (method: Plannable) => void;
};

/** All methods as one choice, by what a kitchen wants to know. A method that no group names stands at the end. */
export function MethodList({ value, proposed, onChange }: Props) {
  const named = new Set(methodGroups.flatMap(({ methods }) => methods));
  const rest = plannable.filter((method) => !named.has(method));
  const groups = [...methodGroups, ...(rest.length > 0 ? [{ legend: choiceWords.otherMethods, methods: rest }] : [])];
  return (
    <fieldset class="field choice" id="method-method" tabIndex={-1} aria-describedby="method-method-hint">
      <legend class="label">{words.choose}</legend>
      <p class="fine" id="method-method-hint">
        {words.keeps}
      </p>
      {groups.map(({ legend, methods }) => (
        <fieldset key={legend} class="method-group">
          <legend>{legend}</legend>
          {words.options
            .filter((option) => methods.includes(option.value))
            .map((option) => (
              <label key={option.value} class="option">
                <input
                  type="radio"
                  name="method-method"
                  value={option.value}
                  checked={option.value === value}
                  onChange={() => onChange(option.value)}
                />
                <span>
                  {option.label}
                  {option.value === proposed ? ` (${adviceWords.mark})` : ""} <span class="fine">{option.hint}</span>
                </span>
              </label>
            ))}
        </fieldset>
      ))}
    </fieldset>
  );
}
