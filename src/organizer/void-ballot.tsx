import { useState } from "preact/hooks";
import type { Ballot } from "../log/ballots.ts";
import { type Body, voidReasons } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords, voidReasons as reasonWords } from "../words/en/organizer-day.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { voidable, voidBody } from "./day.ts";
import { Choice, Select } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { ballotName, voidHindrance } from "./rulings.ts";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useDevices, whereOf } from "./use-devices.ts";

const words = dayWords.void;
type Reason = Body<"ballot-voided">["reason"];

/** Takes a ballot out of the count, blind, with a reason. */
export function VoidBallot({ id, state }: StudyProps) {
  const ballots = voidable(state);
  const [done, setDone] = useState<number | null>(null);
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{state.reveal ? words.over : words.lead}</p>
      {done === null ? null : (
        <p class="note" role="status">
          {words.done(trayLabel(done))}
        </p>
      )}
      {ballots.length === 0 && !state.reveal ? <p>{words.none}</p> : null}
      {ballots.length > 0 && !state.reveal ? <VoidForm id={id} ballots={ballots} onDone={setDone} /> : null}
    </Page>
  );
}

type FormProps = { id: string; ballots: Ballot[]; onDone: (tray: number) => void };

/** Nothing is chosen beforehand: a ballot that nobody picked, or a reason that nobody gave, must not go into the log. */
function VoidForm({ id, ballots, onDone }: FormProps) {
  const lead = useLead();
  const doing = useDoing();
  const [picked, setPicked] = useState("");
  const [reason, setReason] = useState<Reason | null>(null);
  const [note, setNote] = useState("");
  const [tried, setTried] = useState(false);
  const hindrance = voidHindrance(picked, reason, ballots);
  const ballot = ballots.find((each) => ballotName(each) === picked);
  const said = (...which: (typeof hindrance)[]) =>
    hindrance !== null && which.includes(hindrance) && (tried || hindrance === "gone")
      ? words.missing[hindrance]
      : null;

  const submit = (): void => {
    setTried(true);
    if (hindrance !== null || !ballot || reason === null) return;
    doing.run(async () => {
      const body = voidBody(ballot, reason, note.trim());
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "ballot-voided", body });
      setPicked("");
      setReason(null);
      setNote("");
      setTried(false);
      onDone(ballot.tray);
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
      <PickBallot ballots={ballots} value={ballot ? picked : ""} onChange={setPicked} problem={said("pick", "gone")} />
      <Choice
        id="void-reason"
        legend={words.reason}
        options={voidReasons.map((value) => ({ value, label: reasonWords[value], hint: "" }))}
        value={reason}
        onChange={setReason}
        problem={said("reason")}
      />
      <NoteField id="void-note" value={note} onInput={setNote} />
      <ProblemNote thrown={doing.thrown} />
      <p>
        <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
          {words.submit}
        </button>
      </p>
    </form>
  );
}

type PickProps = { ballots: Ballot[]; value: string; onChange: (name: string) => void; problem: string | null };

function PickBallot({ ballots, value, onChange, problem }: PickProps) {
  const devices = useDevices();
  return (
    <Select
      id="void-ballot"
      label={words.which}
      value={value}
      options={[
        { value: "", label: words.pick },
        ...ballots.map((each) => ({
          value: ballotName(each),
          label: words.ballot(trayLabel(each.tray), whereOf(each, devices), each.answeredAt ?? each.openedAt),
        })),
      ]}
      onChange={onChange}
      problem={problem}
    />
  );
}
