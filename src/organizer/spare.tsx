import { useState } from "preact/hooks";
import { spareReasons } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { dayWords, spareReasons as reasonWords } from "../words/en/organizer-day.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { freeSpares } from "./day.ts";
import { Choice, Select } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";

const words = dayWords.spare;
type Reason = (typeof spareReasons)[number];

/** Names the next spare tray, and what it is served for. */
export function Spare({ id, state }: StudyProps) {
  const lead = useLead();
  const doing = useDoing();
  const [reason, setReason] = useState<Reason>("replaces");
  const [instead, setInstead] = useState("");
  const [note, setNote] = useState("");
  const [missing, setMissing] = useState(false);
  const [done, setDone] = useState<number | null>(null);
  const replaced = reason === "replaces" && instead !== "" ? Number(instead) : null;
  const wave = replaced === null ? null : (state.trays.get(replaced)?.wave ?? null);
  const spare = freeSpares(state, wave)[0];

  const submit = (): void => {
    if (!spare) return;
    if (reason === "replaces" && replaced === null) {
      setMissing(true);
      return;
    }
    doing.run(async () => {
      const body = { tray: spare.tray, instead: replaced, reason, note: note.trim() };
      await appendEvent(lead, { stream: { kind: "study", id }, kind: "spare-served", body });
      setDone(spare.tray);
      setInstead("");
      setNote("");
    });
  };

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{state.close ? words.over : words.lead}</p>
      {done === null ? null : (
        <p class="note" role="status">
          {words.done(trayLabel(done))}
        </p>
      )}
      {!spare && !state.close ? <p>{words.none}</p> : null}
      {spare && !state.close ? (
        <form
          class="stack"
          onSubmit={(event) => {
            event.preventDefault();
            submit();
          }}
        >
          <Choice
            id="spare-reason"
            legend={words.reason}
            options={spareReasons.map((value) => ({ value, label: reasonWords[value], hint: "" }))}
            value={reason}
            onChange={setReason}
          />
          {reason === "replaces" ? (
            <Select
              id="spare-instead"
              label={words.instead}
              value={instead}
              options={[
                { value: "", label: words.pick },
                ...[...state.trays.values()]
                  .filter((tray) => !tray.spare || tray.served)
                  .map(({ tray }) => ({ value: String(tray), label: trayLabel(tray) })),
              ]}
              onChange={(value) => {
                setInstead(value);
                setMissing(false);
              }}
            />
          ) : null}
          {missing ? (
            <p class="wrong" role="alert">
              {words.missing}
            </p>
          ) : null}
          <NoteField id="spare-note" value={note} onInput={setNote} />
          <ProblemNote thrown={doing.thrown} />
          <p>{words.next(trayLabel(spare.tray), spare.wave)}</p>
          <p>
            <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
              {words.submit(trayLabel(spare.tray))}
            </button>
          </p>
        </form>
      ) : null}
    </Page>
  );
}
