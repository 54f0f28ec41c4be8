import type { ComponentChildren } from "preact";

type TextProps = {
  id: string;
  label: string;
  hint?: string | undefined;
  value: string;
  onInput: (value: string) => void;
  /** Rows of a larger field; a single line when left out. */
  rows?: number;
  max?: number;
  problem?: string | null | undefined;
  /** Width in characters; the whole measure when left out. */
  chars?: number;
  autocomplete?: "off" | "one-time-code" | "name";
};

/** A labeled text field with its hint and its problem, tied to it for those who hear the page. */
export function TextField(props: TextProps) {
  const { id, label, hint, value, onInput, rows, max = rows === undefined ? 300 : 4000, problem, chars } = props;
  const shared = {
    id,
    value,
    maxLength: max,
    "aria-describedby": describedBy(id, hint, problem),
    "aria-invalid": problem ? ("true" as const) : undefined,
    autocomplete: props.autocomplete ?? "off",
    class: chars === undefined ? undefined : `chars-${chars}`,
    onInput: (event: { currentTarget: { value: string } }) => onInput(event.currentTarget.value),
  };
  return (
    <Field id={id} label={label} hint={hint} problem={problem}>
      {rows === undefined ? <input type="text" {...shared} /> : <textarea rows={rows} {...shared} />}
    </Field>
  );
}

/** Label, hint and problem around a control. */
export function Field(props: {
  id: string;
  label: ComponentChildren;
  hint?: string | undefined;
  problem?: string | null | undefined;
  children: ComponentChildren;
}) {
  const { id, label, hint, problem, children } = props;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {hint ? (
        <p class="fine" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
      {children}
      {problem ? (
        <p class="wrong" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      ) : null}
    </div>
  );
}

/** The ids that describe a control, or none. */
export const describedBy = (id: string, hint?: string | null, problem?: string | null): string | undefined =>
  [hint ? `${id}-hint` : "", problem ? `${id}-problem` : ""].filter(Boolean).join(" ") || undefined;

type ChoiceProps<T extends string | number> = {
  id: string;
  legend: string;
  hint?: string | undefined;
  options: readonly { value: T; label: string; hint: string }[];
  value: T | null;
  onChange: (value: T) => void;
  problem?: string | null | undefined;
};

/** One of several, as native radios. */
export function Choice<T extends string | number>({
  id,
  legend,
  hint,
  options,
  value,
  onChange,
  problem,
}: ChoiceProps<T>) {
  return (
    <fieldset class="field choice" id={id} tabIndex={-1} aria-describedby={describedBy(id, hint, problem)}>
      <legend class="label">{legend}</legend>
      {hint ? (
        <p class="fine" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
      {options.map((option) => (
        <label key={option.value} class="option">
          <input
            type="radio"
            name={id}
            value={String(option.value)}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          <span>
            {option.label}
            {option.hint ? <span class="fine"> {option.hint}</span> : null}
          </span>
        </label>
      ))}
      {problem ? (
        <p class="wrong" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      ) : null}
    </fieldset>
  );
}

/** A yes or no, as a native checkbox. */
export function Check(props: {
  id: string;
  label: ComponentChildren;
  checked: boolean;
  onChange: (checked: boolean) => void;
}) {
  return (
    <label class="option" for={props.id}>
      <input
        type="checkbox"
        id={props.id}
        checked={props.checked}
        onChange={(event) => props.onChange(event.currentTarget.checked)}
      />
      <span>{props.label}</span>
    </label>
  );
}

/** A select over a list of values with labels. */
export function Select(props: {
  id: string;
  label: string;
  hint?: string;
  value: string;
  options: readonly { value: string; label: string }[];
  onChange: (value: string) => void;
  problem?: string | null | undefined;
}) {
  const { id, label, hint, value, options, onChange, problem } = props;
  return (
    <Field id={id} label={label} hint={hint} problem={problem}>
      <select
        id={id}
        value={value}
        aria-describedby={describedBy(id, hint, problem)}
        aria-invalid={problem ? "true" : undefined}
        onChange={(event) => onChange(event.currentTarget.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Field>
  );
}
