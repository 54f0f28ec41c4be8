import { useState } from "preact/hooks";
import type { ProblemData } from "../../model/problem.ts";
import { panelEnroll } from "../../words/en/panel-enroll.ts";
import { asProblem } from "../as-problem.ts";
import { useDesk } from "../desk.ts";
import { Frame } from "../frame.tsx";
import { Insecure } from "./notices.tsx";

type Props = {
  /** A code that came with the address. */
  code: string;
  name: string;
  /** first: never enrolled; again: the server does not know it any more; before: enrolled once, storage cleared since */
  why: "first" | "again" | "before";
  /** Resolves to false when the code is for another role. Throws the Problem. */
  enroll: (code: string, name: string) => Promise<boolean>;
  cancel?: () => void;
};

/** Enrolling this tablet: a one-time code from the lead, and a name the lead will know it by, unless the lead gave one. */
export function Enroll({ code: given, name: before, why, enroll, cancel }: Props) {
  const { words } = useDesk();
  const [code, setCode] = useState(given);
  const [name, setName] = useState(before);
  const [state, setState] = useState<{ busy: boolean; problem?: ProblemData; hint?: string }>({ busy: false });

  async function submit(event: Event): Promise<void> {
    event.preventDefault();
    if (state.busy) return;
    if (code.trim() === "") return setState({ busy: false, hint: panelEnroll.codeMissing });
    setState({ busy: true });
    try {
      const done = await enroll(code.trim(), name.trim());
      setState(done ? { busy: false } : { busy: false, hint: panelEnroll.wrongRole });
    } catch (thrown) {
      setState({ busy: false, problem: asProblem(thrown) });
    }
  }

  return (
    <form class="whole" onSubmit={submit}>
      <Frame
        title={panelEnroll.title}
        problem={state.problem ?? null}
        hint={state.hint ?? null}
        left={
          cancel ? (
            <button type="button" onClick={cancel}>
              {panelEnroll.cancel}
            </button>
          ) : null
        }
        right={
          <button type="submit" class="next">
            {panelEnroll.go}
          </button>
        }
      >
        <p class="lead-in">{panelEnroll.lead}</p>
        {why === "first" ? null : <p>{why === "again" ? words.enroll.again : panelEnroll.before}</p>}
        <div class="fields">
          <Field id="code" label={panelEnroll.code} hint={panelEnroll.codeHint} value={code} set={setCode} max={40} />
          <Field id="name" label={panelEnroll.name} hint={panelEnroll.nameHint} value={name} set={setName} max={100} />
        </div>
        <Insecure />
      </Frame>
    </form>
  );
}

type FieldProps = {
  id: string;
  label: string;
  hint: string;
  value: string;
  set: (value: string) => void;
  max: number;
};

function Field({ id, label, hint, value, set, max }: FieldProps) {
  return (
    <div>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={value}
        maxLength={max}
        autocomplete="off"
        autocapitalize={id === "code" ? "characters" : "words"}
        spellcheck={false}
        aria-describedby={`${id}-hint`}
        onInput={(event) => set(event.currentTarget.value)}
      />
      <p id={`${id}-hint`} class="fine">
        {hint}
      </p>
    </div>
  );
}
