import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import { familyOf } from "../analysis/method.ts";
import { plannable, shapeOf } from "../model/method.ts";
import { goals, noPreferenceRules, sidesOf } from "../model/plan.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import type { Values } from "./compute.ts";
import { computeBeside } from "./computing.ts";
import { askedOf, mayBeLikeness, mostDistance, seeksLikeness, type Typed } from "./elsewhere-typed.ts";
import { Waiting } from "./waiting.tsx";

export type Found = Values["file"] & { name: string };

type Props = { typed: Typed; setTyped: (typed: Typed) => void; app: string; onFound: (found: Found) => void };
const words = reader.elsewhere;

/** Asks for a file and for what was agreed beforehand, and computes. Nothing leaves this page. */
export function ElsewhereForm({ typed, setTyped, app, onFound }: Props) {
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const stop = useRef(new AbortController());
  const change = (part: Partial<Typed>): void => setTyped({ ...typed, ...part });

  async function submit(event: Event): Promise<void> {
    event.preventDefault();
    const { file } = typed;
    if (busy) return;
    if (!file) return setProblem(words.missingFile);
    stop.current = new AbortController();
    const { signal } = stop.current;
    try {
      const asked = askedOf(typed);
      if (typeof asked === "string") return setProblem(asked);
      const text = await textOf(file);
      if (text === null) return setProblem(words.unreadable);
      setProblem("");
      setBusy(true);
      const found = await computeBeside({ job: "file", text, path: file.name, asked, app }, { signal });
      onFound({ ...found, name: file.name });
    } catch (thrown) {
      setBusy(false);
      setProblem(signal.aborted ? reader.large.stopped : sentenceOf(thrown));
    }
  }

  return (
    <form class="csv-form" onSubmit={(event) => void submit(event)} noValidate>
      <label>
        {words.file}
        <input
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
          onChange={(event) => change({ file: event.currentTarget.files?.[0] ?? null })}
        />
        {typed.file && <span class="hint">{words.chosen(typed.file.name)}</span>}
      </label>
      <Choices
        legend={words.method}
        name="method"
        options={plannable.map((value) => ({ value, label: report.methods[value] }))}
        chosen={typed.method}
        onChoose={(method) => change({ method })}
      />
      <Columns typed={typed} />
      <Rule typed={typed} change={change} />
      <p class="fine">{words.beforehand}</p>
      <p role="alert" class="problem">
        {problem}
      </p>
      <button type="submit" class="next" aria-disabled={busy}>
        {words.submit}
      </button>
      {busy && <Waiting text={reader.large.computing} onStop={() => stop.current.abort()} />}
    </form>
  );
}

function Columns({ typed }: { typed: Typed }) {
  const family = familyOf(typed.method, typed.sides);
  return (
    <p class="fine columns">
      {words.columnsHead}: {words.columns[family]}. {words.anyOrder}
    </p>
  );
}

/** What was fixed before the answers were known, as far as the method asks for it. */
function Rule({ typed, change }: { typed: Typed; change: (part: Partial<Typed>) => void }) {
  const similarity = seeksLikeness(typed);
  return (
    <>
      {shapeOf(typed.method).sides === "either" && (
        <Choices
          legend={words.sides}
          name="sides"
          options={sidesOf.map((value) => ({ value, label: words.sidesAre[value] }))}
          chosen={typed.sides}
          onChoose={(sides) => change({ sides })}
        />
      )}
      {mayBeLikeness(typed) && (
        <Choices
          legend={words.goal}
          name="goal"
          options={goals.map((value) => ({ value, label: words.goals[value] }))}
          chosen={typed.goal}
          onChoose={(goal) => change({ goal })}
        />
      )}
      {typed.method === "paired-preference" && (
        <Choices
          legend={words.none}
          name="none"
          options={noPreferenceRules.map((value) => ({ value, label: words.noneRules[value] }))}
          chosen={typed.noPreference}
          onChoose={(noPreference) => change({ noPreference })}
        />
      )}
      {similarity ? (
        <Limit typed={typed} change={change} />
      ) : (
        <Percent label={words.alpha} value={typed.alpha} onInput={(alpha) => change({ alpha })} />
      )}
      {shapeOf(typed.method).answer === "portions" && (
        <Chewed chewed={typed.chewed} change={(part) => change({ chewed: { ...typed.chewed, ...part } })} />
      )}
      {!["marks", "order", "portions"].includes(shapeOf(typed.method).answer) && (
        <Percent label={words.confidence} value={typed.confidence} onInput={(confidence) => change({ confidence })} />
      )}
    </>
  );
}

type Chewed = Typed["chewed"];

/** What was fixed of chewed portions; each of it may be left out. */
function Chewed({ chewed, change }: { chewed: Chewed; change: (part: Partial<Chewed>) => void }) {
  const fields = ["control", "matters", "seconds", "balanceStep"] as const;
  return (
    <>
      {fields.map((field) => (
        <label key={field}>
          {words.chewed[field]}
          <input
            type="text"
            inputMode={field === "control" ? "text" : "decimal"}
            value={chewed[field]}
            onInput={(event) => change({ [field]: event.currentTarget.value })}
          />
        </label>
      ))}
    </>
  );
}

/** The limit as it was fixed, and the risk of being wrong about it. */
function Limit({ typed, change }: { typed: Typed; change: (part: Partial<Typed>) => void }) {
  return (
    <>
      <Choices
        legend={words.fixedAs}
        name="fixed-as"
        options={(["share", "distance"] as const).map((value) => ({ value, label: words.fixedAsIs[value] }))}
        chosen={typed.fixedAs}
        onChoose={(fixedAs) => change({ fixedAs })}
      />
      {typed.fixedAs === "share" ? (
        <Percent label={words.limit} value={typed.limit} onInput={(limit) => change({ limit })} />
      ) : (
        <Percent
          label={words.limitDistance}
          value={typed.limitDistance}
          most={mostDistance}
          onInput={(limitDistance) => change({ limitDistance })}
        />
      )}
      <Percent label={words.beta} value={typed.beta} onInput={(beta) => change({ beta })} />
    </>
  );
}

type ChoicesProps<T extends string> = {
  legend: string;
  name: string;
  options: { value: T; label: string }[];
  chosen: T;
  onChoose: (value: T) => void;
};

function Choices<T extends string>({ legend, name, options, chosen, onChoose }: ChoicesProps<T>) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      {options.map(({ value, label }) => (
        <label class="choice" key={value}>
          <input type="radio" name={name} value={value} checked={value === chosen} onChange={() => onChoose(value)} />
          {label}
        </label>
      ))}
    </fieldset>
  );
}

function Percent({
  label,
  value,
  most = 100,
  onInput,
}: {
  label: ComponentChildren;
  value: string;
  most?: number;
  onInput: (text: string) => void;
}) {
  return (
    <label>
      {label}
      <input
        type="number"
        min="0"
        max={most}
        step="any"
        value={value}
        onInput={(event) => onInput(event.currentTarget.value)}
      />
    </label>
  );
}

/** The text of a file, UTF-8 or what an older spreadsheet writes; null when it cannot be read. */
async function textOf(file: File): Promise<string | null> {
  try {
    const bytes = await file.arrayBuffer();
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder("windows-1252").decode(bytes);
    }
  } catch {
    return null;
  }
}
