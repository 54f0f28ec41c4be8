import { useState } from "preact/hooks";
import { nameOf } from "../log/ballots.ts";
import type { TrayState } from "../log/trays.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { contestedTrays, rivalBallots, settleBody } from "./day.ts";
import { Choice } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { settleHindrance } from "./rulings.ts";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useDevices } from "./use-devices.ts";

const words = dayWords.settle;

/** Trays that two tablets answered: which ballot counts, chosen without seeing what it says. */
export function Settle({ id, state }: StudyProps) {
  const trays = contestedTrays(state);
  return (
    <Page heading={words.heading} windowTitle={words.heading} margin={<p>{words.clocks}</p>}>
      <BackToDay id={id} />
      <p class="lead-in">{state.reveal ? words.over : trays.length === 0 ? words.none : words.lead}</p>
      {state.reveal ? null : trays.map((tray) => <SettleTray key={tray.tray} id={id} tray={tray} />)}
    </Page>
  );
}

function SettleTray({ id, tray }: { id: string; tray: TrayState }) {
  const lead = useLead();
  const devices = useDevices();
  const doing = useDoing();
  const [keep, setKeep] = useState<string | null>(null);
  const [note, setNote] = useState("");
  const [tried, setTried] = useState(false);
  const hindrance = settleHindrance(keep, tray);
  const field = `settle-${tray.tray}`;

  const submit = (): void => {
    setTried(true);
    if (keep === null || hindrance !== null) return;
    doing.run(async () => {
      const body = settleBody(tray, keep, note.trim());
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "contest-settled", body });
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
        <Choice
          id={field}
          legend={words.tray(trayLabel(tray.tray))}
          options={rivalBallots(tray).map((ballot) => ({
            value: nameOf(ballot),
            label: ballot.paper
              ? words.paper(devices.nameOf(ballot.device), ballot.openedAt, ballot.answeredAt)
              : words.ballot(devices.nameOf(ballot.device), ballot.openedAt, ballot.answeredAt, ballot.finished),
            hint: "",
          }))}
          value={keep}
          onChange={(device) => {
            setKeep(device);
            setTried(false);
          }}
          problem={hindrance !== null && (tried || hindrance === "gone") ? words.missing[hindrance] : null}
        />
        <NoteField id={`${field}-note`} value={note} onInput={setNote} />
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
            {words.submit}
          </button>
        </p>
      </form>
    </section>
  );
}
