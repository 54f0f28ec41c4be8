import { useState } from "preact/hooks";
import { type Ballot, nameOf } from "../log/ballots.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { lateBallots } from "./day.ts";
import { TextField } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { ballotName } from "./rulings.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useDevices, whereOf } from "./use-devices.ts";

const words = dayWords.admit;

/** Ballots that came in after the close: admitted one by one, with a reason, before the key is opened. */
export function Admit({ id, state }: StudyProps) {
  const ballots = lateBallots(state);
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{state.reveal ? words.over : ballots.length === 0 ? words.none : words.lead}</p>
      {state.reveal ? null : ballots.map((ballot) => <Late key={ballotName(ballot)} id={id} ballot={ballot} />)}
    </Page>
  );
}

function Late({ id, ballot }: { id: string; ballot: Ballot }) {
  const lead = useLead();
  const devices = useDevices();
  const doing = useDoing();
  const [note, setNote] = useState("");
  const [missing, setMissing] = useState(false);
  const label = trayLabel(ballot.tray);

  const submit = (): void => {
    if (note.trim() === "") {
      setMissing(true);
      return;
    }
    doing.run(async () => {
      const body = { tray: ballot.tray, device: nameOf(ballot), note: note.trim() };
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "late-admitted", body });
    });
  };

  return (
    <section>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <h2>{words.ballot(label, whereOf(ballot, devices), ballot.answeredAt)}</h2>
        <TextField
          id={`admit-${ballot.tray}-${nameOf(ballot)}`}
          label={lockWords.gate.note}
          hint={lockWords.gate.noteHint}
          value={note}
          onInput={(text) => {
            setNote(text);
            setMissing(false);
          }}
          problem={missing ? words.missing : null}
        />
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" aria-disabled={doing.busy ? "true" : undefined}>
            {words.submit(label)}
          </button>
        </p>
      </form>
    </section>
  );
}
