import { useState } from "preact/hooks";
import { voidReasons } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords, voidReasons as reasonWords } from "../words/en/organizer-day.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { voidable, voidBody } from "./day.ts";
import { Choice, Select } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useDevices } from "./use-devices.ts";

const words = dayWords.void;
type Reason = (typeof voidReasons)[number];

/** Takes a ballot out of the count, blind, with a reason. */
export function VoidBallot({ id, state }: StudyProps) {
  const lead = useLead();
  const devices = useDevices();
  const doing = useDoing();
  const ballots = voidable(state);
  const [picked, setPicked] = useState("");
  const [reason, setReason] = useState<Reason>("sample-dropped");
  const [note, setNote] = useState("");
  const [done, setDone] = useState<number | null>(null);
  const nameOf = (ballot: { tray: number; device: string }) => `${ballot.tray} ${ballot.device}`;
  const ballot = ballots.find((each) => nameOf(each) === picked) ?? ballots[0];

  const submit = (): void => {
    if (!ballot) return;
    doing.run(async () => {
      const body = voidBody(ballot, reason, note.trim());
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "ballot-voided", body });
      setDone(ballot.tray);
      setPicked("");
      setNote("");
    });
  };

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{state.reveal ? words.over : words.lead}</p>
      {done === null ? null : (
        <p class="note" role="status">
          {words.done(trayLabel(done))}
        </p>
      )}
      {!ballot && !state.reveal ? <p>{words.none}</p> : null}
      {ballot && !state.reveal ? (
        <form
          class="stack"
          onSubmit={(event) => {
            event.preventDefault();
            submit();
          }}
        >
          <Select
            id="void-ballot"
            label={words.which}
            value={nameOf(ballot)}
            options={ballots.map((each) => ({
              value: nameOf(each),
              label: words.ballot(trayLabel(each.tray), devices.nameOf(each.device), each.answeredAt ?? each.openedAt),
            }))}
            onChange={setPicked}
          />
          <Choice
            id="void-reason"
            legend={words.reason}
            options={voidReasons.map((value) => ({ value, label: reasonWords[value], hint: "" }))}
            value={reason}
            onChange={setReason}
          />
          <NoteField id="void-note" value={note} onInput={setNote} />
          <ProblemNote thrown={doing.thrown} />
          <p>
            <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
              {words.submit}
            </button>
          </p>
        </form>
      ) : null}
    </Page>
  );
}
