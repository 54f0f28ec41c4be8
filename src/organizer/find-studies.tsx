import { focusSoon } from "../ui/focus.ts";
import { studiesWords } from "../words/en/organizer-studies.ts";
import { Select, TextField } from "./fields.tsx";
import { found, type Known, type Sought } from "./study-find.ts";
import type { Stage } from "./study-stage.ts";

const words = studiesWords.find;
const stages = ["draft", "locked", "collecting", "closed", "revealed"] as const satisfies readonly Stage[];
const isStage = (text: string): text is Stage => (stages as readonly string[]).includes(text);

type Props = {
  known: readonly Known[];
  /** How many are shown now. */
  shown: number;
  sought: Sought;
  onSought: (sought: Sought) => void;
};

/** Finds studies as somebody types. Only states that some study is in can be chosen. */
export function FindStudies({ known, shown, sought, onSought }: Props) {
  const options = stages.flatMap((stage) => {
    const count = found(known, { words: "", stage }).length;
    return count > 0 || stage === sought.stage
      ? [{ value: stage as string, label: words.count(words.states[stage], count) }]
      : [];
  });
  return (
    <search aria-label={words.label} class="find">
      <TextField
        id="find-words"
        label={words.words}
        value={sought.words}
        onInput={(typed) => onSought({ ...sought, words: typed })}
      />
      <Select
        id="find-state"
        label={words.state}
        value={sought.stage ?? ""}
        options={[{ value: "", label: words.all }, ...options]}
        onChange={(stage) => onSought({ ...sought, stage: isStage(stage) ? stage : null })}
      />
      <p class="fine shown" role="status">
        {shown === 0 ? words.none : words.shown(shown, known.length)}
      </p>
      {shown === known.length ? null : (
        <button
          type="button"
          class="quiet"
          onClick={() => {
            onSought({ words: "", stage: null });
            focusSoon("find-words");
          }}
        >
          {words.clear}
        </button>
      )}
    </search>
  );
}
