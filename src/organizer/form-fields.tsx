import type { Attribute, ScaleForm } from "../model/attribute.ts";
import { focusSoon } from "../ui/focus.ts";
import { type FormKind, form as words } from "../words/en/organizer-form.ts";
import { Choice, TextField } from "./fields.tsx";
import { mostSteps, withoutStep, withStep } from "./plan-form.ts";

type Typed = Pick<Attribute, "adjective" | "form">;
/** A property as a plan or the kitchen knows it; only a plan says whether it counts. */
type Judged = Typed & Pick<Attribute, "id" | "name"> & { inFamily?: boolean };
type Steps = Exclude<ScaleForm, { kind: "line" }>;
type Props = {
  /** Ids of the fields begin with it. */
  id: string;
  judged: Judged;
  onChange: (change: Partial<Typed> & { inFamily?: boolean }, said?: string) => void;
};

/** What a property had before it came to be judged otherwise. */
type Left = { kinds: Map<FormKind, Typed>; inFamily: boolean };

/**
 * By property, as long as the page is open: whoever only looks at another kind finds what was typed when coming back,
 * also after the part of the plan was closed.
 */
const left = new Map<string, Left>();

export const kindOf = (form: ScaleForm): FormKind => (form.kind === "steps" && form.liking ? "liking" : form.kind);

/** How a property is judged, and the labels where it is judged in steps. */
export function FormFields({ id, judged, onChange }: Props) {
  const { form, adjective } = judged;
  const kind = kindOf(form);
  const choose = (next: FormKind): void => {
    const { kinds, inFamily } = leaving(judged, kind);
    const change = kinds.get(next) ?? begun(next, kind, judged);
    // "just right" never counts; what counted before does so again when it is judged otherwise
    onChange(kind === "just-right" && judged.inFamily !== undefined ? { ...change, inFamily } : change);
  };
  return (
    <>
      <Choice id={`${id}-form`} legend={words.legend} options={words.kinds} value={kind} onChange={choose} />
      {form.kind === "line" || kind === "line" ? null : (
        <Labels
          id={id}
          kind={kind}
          form={form}
          adjective={adjective}
          onChange={(next, said) => onChange({ form: next }, said)}
        />
      )}
    </>
  );
}

/** Notes what the property has, and gives all that was noted. */
function leaving({ id, adjective, form, inFamily = false }: Judged, kind: FormKind): Left {
  const before = left.get(id) ?? { kinds: new Map(), inFamily };
  const now = { ...before, inFamily: kind === "just-right" ? before.inFamily : inFamily };
  now.kinds.set(kind, { adjective, form });
  left.set(id, now);
  return now;
}

/** Another kind with its usual labels. A line and steps ask with an adjective, the others with a noun. */
function begun(next: FormKind, kind: FormKind, { name, adjective }: Judged): Typed {
  const byAdjective = (one: FormKind): boolean => one === "line" || one === "steps";
  const noun = next === "liking" ? "" : (byAdjective(kind) ? "" : adjective.trim()) || name.trim().toLowerCase();
  const asked = byAdjective(next) ? (byAdjective(kind) ? adjective : "") : noun;
  if (next === "line") return { adjective: asked, form: { kind: "line" } };
  return { adjective: asked, form: formOf(next, words.sets[next][0]?.labels(asked) ?? []) };
}

const formOf = (kind: Exclude<FormKind, "line">, labels: string[]): ScaleForm =>
  kind === "just-right" ? { kind, labels } : { kind: "steps", labels, liking: kind === "liking" };

type LabelsProps = {
  id: string;
  kind: Exclude<FormKind, "line">;
  form: Steps;
  adjective: string;
  onChange: (form: ScaleForm, said?: string) => void;
};

function Labels({ id, kind, form, adjective, onChange }: LabelsProps) {
  const { labels } = form;
  const set = (next: string[], said?: string): void => onChange(formOf(kind, next), said);
  const field = (step: number): string => `${id}-step-${step}`;
  return (
    <fieldset class="group steps">
      <legend class="label">{words.labels}</legend>
      <p class="fine">{words.labelsHint[form.kind]}</p>
      <p class="after-row">
        <span class="fine">{words.start}</span>
        {words.sets[kind].map(({ name, labels: start }) => (
          <button key={name} type="button" class="quiet" onClick={() => set(start(adjective))}>
            {name}
          </button>
        ))}
      </p>
      <div class="step-labels">
        {labels.map((label, at) => (
          <TextField
            key={at}
            id={field(at)}
            label={words.label(at + 1, labels.length)}
            value={label}
            max={60}
            onInput={(typed) => set(labels.with(at, typed))}
          />
        ))}
      </div>
      {kind === "just-right" ? null : (
        <p class="after-row">
          {labels.length < mostSteps ? (
            <button
              type="button"
              class="quiet"
              onClick={() => {
                set(withStep(labels), words.steps(labels.length + 1));
                focusSoon(field(labels.length - 1), "center");
              }}
            >
              {words.addStep}
            </button>
          ) : null}
          {labels.length > 2 ? (
            <button
              type="button"
              class="quiet"
              onClick={() => set(withoutStep(labels), words.steps(labels.length - 1))}
            >
              {words.removeStep}
            </button>
          ) : null}
        </p>
      )}
    </fieldset>
  );
}
