import { useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import { spareReasons } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords, spareReasons as reasonWords } from "../words/en/organizer-day.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { freeSpares } from "./day.ts";
import { Choice, Select } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { stepAddress } from "./route.ts";
import { chooseSpare, type SpareChoice, spareHindrance } from "./rulings.ts";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";

const words = dayWords.spare;
const nothing: SpareChoice = { reason: null, instead: null, offered: null };

/** Names the next spare tray, and what it is served for. */
export function Spare({ id, state }: StudyProps) {
  const [done, setDone] = useState<number | null>(null);
  const left = freeSpares(state).length > 0;
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{state.close ? words.over : words.lead}</p>
      {done === null ? null : (
        <p class="note" role="status">
          {words.done(trayLabel(done))}
        </p>
      )}
      {!left && !state.close ? <p>{words.none}</p> : null}
      {left && !state.close ? <SpareForm id={id} state={state} onDone={setDone} /> : null}
    </Page>
  );
}

type Hindrance = ReturnType<typeof spareHindrance>;
type FormProps = { id: string; state: StudyState; onDone: (tray: number) => void };

function SpareForm({ id, state, onDone }: FormProps) {
  const lead = useLead();
  const doing = useDoing();
  const [choice, setChoice] = useState(nothing);
  const [note, setNote] = useState("");
  const [tried, setTried] = useState(false);
  const hindrance = spareHindrance(choice, state);

  const choose = (made: Partial<SpareChoice>): void => {
    setChoice(chooseSpare(state, { ...choice, ...made }));
    setTried(false);
  };
  const submit = (): void => {
    setTried(true);
    const { reason, instead, offered } = choice;
    if (hindrance !== null || reason === null || offered === null) return;
    doing.run(async () => {
      const body = { tray: offered, instead, reason, note: note.trim() };
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "spare-served", body });
      setChoice(nothing);
      setNote("");
      setTried(false);
      onDone(offered);
    });
  };

  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <Reasons choice={choice} state={state} problem={tried ? hindrance : null} choose={choose} />
      <NoteField id="spare-note" value={note} onInput={setNote} />
      <ProblemNote thrown={doing.thrown} />
      <Offer id={id} state={state} choice={choice} again={() => choose({})} />
      <p>
        <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
          {choice.offered === null ? words.heading : words.submit(trayLabel(choice.offered))}
        </button>
      </p>
    </form>
  );
}

type ReasonProps = {
  choice: SpareChoice;
  state: StudyState;
  problem: Hindrance;
  choose: (made: Partial<SpareChoice>) => void;
};

/** What the spare is for. Nothing is chosen beforehand. */
function Reasons({ choice, state, problem, choose }: ReasonProps) {
  const trays = [...state.trays.values()].filter((tray) => !tray.spare || tray.served);
  return (
    <>
      <Choice
        id="spare-reason"
        legend={words.reason}
        options={spareReasons.map((value) => ({ value, label: reasonWords[value], hint: "" }))}
        value={choice.reason}
        onChange={(reason) => choose({ reason })}
        problem={problem === "reason" ? words.missing.reason : null}
      />
      {choice.reason === "replaces" ? (
        <Select
          id="spare-instead"
          label={words.instead}
          value={choice.instead === null ? "" : String(choice.instead)}
          options={[
            { value: "", label: words.pick },
            ...trays.map(({ tray }) => ({ value: String(tray), label: trayLabel(tray) })),
          ]}
          onChange={(value) => choose({ instead: value === "" ? null : Number(value) })}
          problem={problem === "instead" || problem === "stands" ? words.missing[problem] : null}
        />
      ) : null}
    </>
  );
}

/** The spare tray that goes with the choice, or what stands against it. */
function Offer(props: { id: string; state: StudyState; choice: SpareChoice; again: () => void }) {
  const { id, state, choice, again } = props;
  const hindrance = spareHindrance(choice, state);
  if (hindrance === "stands" && choice.instead !== null) {
    return (
      <p class="stop" role="alert">
        {words.stands(trayLabel(choice.instead))} <a href={stepAddress(id, "void")}>{words.voidFirst}</a>
      </p>
    );
  }
  if (hindrance === "gone") {
    return (
      <p class="wrong" role="alert">
        {words.missing.gone}{" "}
        <button type="button" class="quiet" onClick={again}>
          {words.another}
        </button>
      </p>
    );
  }
  const tray = choice.offered === null ? undefined : state.trays.get(choice.offered);
  return tray ? <p>{words.next(trayLabel(tray.tray), tray.wave)}</p> : null;
}
