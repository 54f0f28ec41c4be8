import type { ComponentChildren } from "preact";
import { describedBy, Field } from "./fields.tsx";

type LabelsProps<T extends string | number> = {
  id: string;
  legend: string;
  options: readonly { value: T; label: string }[];
  value: T | null;
  onChange: (value: T) => void;
  problem?: string | null;
};

/** One of several labels, large enough for a thumb. */
export function Labels<T extends string | number>(props: LabelsProps<T>) {
  const { id, legend, options, value, onChange, problem } = props;
  return (
    <fieldset class="field labels" id={id} tabIndex={-1} aria-describedby={describedBy(id, null, problem)}>
      <legend class="label">{legend}</legend>
      <div>
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={id}
              value={String(option.value)}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
      {problem ? (
        <p class="wrong" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      ) : null}
    </fieldset>
  );
}

type TypedProps = {
  id: string;
  label: string;
  hint?: ComponentChildren;
  value: string;
  onInput: (typed: string) => void;
  problem?: string | null;
  mode?: "decimal" | "numeric";
};

/** A number as it is typed, on a phone with the keys for numbers. */
export function TypedNumber({ id, label, hint, value, onInput, problem, mode = "decimal" }: TypedProps) {
  return (
    <Field id={id} label={label} problem={problem}>
      {hint ? (
        <p class="fine" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
      <input
        id={id}
        type="text"
        class="chars-8"
        inputMode={mode}
        autocomplete="off"
        maxLength={10}
        value={value}
        aria-describedby={describedBy(id, hint ? "yes" : null, problem)}
        aria-invalid={problem ? "true" : undefined}
        onInput={(event) => onInput(event.currentTarget.value)}
      />
    </Field>
  );
}
