import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { familyOf } from "../analysis/method.ts";
import { type Plannable, plannable } from "../model/method.ts";
import { goals, noPreferenceRules } from "../model/plan.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { type AskedOfFile, type FoundInFile, resultOfFile } from "./elsewhere-result.ts";

/** What was typed, as typed: kept while the result is shown, so that one thing can be changed. */
export type Typed = Omit<AskedOfFile, "alpha" | "limit" | "beta"> & {
  file: File | null;
  alpha: string;
  limit: string;
  beta: string;
};
export const nothingTyped: Typed = {
  ...{ file: null, method: "triangle", goal: "difference", noPreference: "dropped" },
  ...{ alpha: "5", limit: "30", beta: "5" },
};
export type Found = FoundInFile & { name: string; text: string };

type Props = { typed: Typed; setTyped: (typed: Typed) => void; app: string; onFound: (found: Found) => void };
const words = reader.elsewhere;

/** Asks for a file and for what was agreed beforehand, and computes. Nothing leaves this page. */
export function ElsewhereForm({ typed, setTyped, app, onFound }: Props) {
  const [problem, setProblem] = useState("");
  const change = (part: Partial<Typed>): void => setTyped({ ...typed, ...part });

  async function submit(event: Event): Promise<void> {
    event.preventDefault();
    const { file } = typed;
    if (!file) return setProblem(words.missingFile);
    try {
      const asked = askedOf(typed);
      if (typeof asked === "string") return setProblem(asked);
      const text = await textOf(file);
      if (text === null) return setProblem(words.unreadable);
      setProblem("");
      onFound({ ...resultOfFile(text, file.name, asked, app), name: file.name, text });
    } catch (thrown) {
      setProblem(sentenceOf(thrown));
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
      <p class="fine columns">
        {words.columnsHead}: {words.columns[familyOf(typed.method)]}. {words.anyOrder}
      </p>
      <Rule typed={typed} change={change} />
      <p class="fine">{words.beforehand}</p>
      <p role="alert" class="problem">
        {problem}
      </p>
      <button type="submit" class="next">
        {words.submit}
      </button>
    </form>
  );
}

/** What was fixed before the answers were known, as far as the method asks for it. */
function Rule({ typed, change }: { typed: Typed; change: (part: Partial<Typed>) => void }) {
  const similarity = typed.method === "triangle" && typed.goal === "similarity";
  return (
    <>
      {typed.method === "triangle" && (
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
        <>
          <Percent label={words.limit} value={typed.limit} onInput={(limit) => change({ limit })} />
          <Percent label={words.beta} value={typed.beta} onInput={(beta) => change({ beta })} />
        </>
      ) : (
        <Percent label={words.alpha} value={typed.alpha} onInput={(alpha) => change({ alpha })} />
      )}
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
  onInput,
}: {
  label: ComponentChildren;
  value: string;
  onInput: (text: string) => void;
}) {
  return (
    <label>
      {label}
      <input
        type="number"
        min="0"
        max="100"
        step="any"
        value={value}
        onInput={(event) => onInput(event.currentTarget.value)}
      />
    </label>
  );
}

/** What was typed as numbers, or a sentence that says which is none. */
function askedOf(typed: Typed): AskedOfFile | string {
  const shares = { alpha: shareOf(typed.alpha), limit: shareOf(typed.limit), beta: shareOf(typed.beta) };
  const needed = needs(typed.method, typed.goal);
  for (const [name, most] of needed) {
    const share = shares[name];
    if (!(share > 0 && (most === "below" ? share < 1 : share <= 0.5))) {
      return words.badPercent(words[name], words.above(0), most === "below" ? words.below(100) : words.atMost(50));
    }
  }
  const { method, goal, noPreference } = typed;
  return { ...{ method, noPreference, ...shares }, goal: method === "triangle" ? goal : "difference" };
}

const needs = (method: Plannable, goal: Typed["goal"]): ["alpha" | "limit" | "beta", "below" | "half"][] =>
  method === "triangle" && goal === "similarity"
    ? [
        ["limit", "below"],
        ["beta", "half"],
      ]
    : [["alpha", "half"]];

/** A percentage with a point or a comma, as a share; NaN when it is no number. */
const shareOf = (text: string): number => (text.trim() === "" ? Number.NaN : Number(text.replace(",", ".")) / 100);

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
