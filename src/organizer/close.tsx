import { useState } from "preact/hooks";
import { seenHeads } from "../device/pull.ts";
import type { TrayStatus } from "../log/trays.ts";
import { trayLabel } from "../model/tray.ts";
import { listed } from "../words/en/organizer.ts";
import { heard, lockWords } from "../words/en/organizer-lock.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { closeBody, holdings, mayHold, progressOf } from "./day.ts";
import { fetchStudy } from "./facts.ts";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { studyAddress } from "./route.ts";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { fetchDevices, useDevices } from "./use-devices.ts";
import { WordGate } from "./word-gate.tsx";

const words = lockWords.close;

/** Ends the tasting: says who still holds something, then names all that was seen. */
export function CloseStudy({ id, state, fetching }: StudyProps) {
  const lead = useLead();
  const devices = useDevices();
  const doing = useDoing();
  const [note, setNote] = useState("");
  const holding = holdings(devices.list ?? [], id);
  const { answered, planned } = progressOf(state);
  const traysOf = (status: TrayStatus) =>
    [...state.trays.values()].filter((tray) => tray.status === status).map(({ tray }) => trayLabel(tray));
  const open = traysOf("open");
  const unchecked = traysOf("unchecked");
  const differing = [...state.trays.values()]
    .filter(({ status, ballots }) => status === "unchecked" && ballots.some(({ paper }) => paper === "differs"))
    .map(({ tray }) => trayLabel(tray));
  const perhaps = mayHold(devices.list ?? [], id, state, lead.now());
  const unknown = fetching.thrown !== null || devices.fetching.thrown !== null;

  const close = (): void =>
    doing.run(async () => {
      const stream = { kind: "study" as const, id };
      // the newest there is to see; when the server is away, the page has said what that means
      await fetchStudy(lead, id).catch(() => undefined);
      const latest = await fetchDevices(lead).catch(() => devices.list ?? []);
      const body = closeBody(await seenHeads(lead.store, stream), holdings(latest, id), note.trim());
      await appendEvent(lead, { stream, kind: "study-closed", body, mark: `close ${id}` });
      window.location.hash = studyAddress(id);
    });

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{words.lead}</p>
      <section>
        <p>
          {words.answered(answered, planned)} {answered < planned ? words.below : ""}
        </p>
        {open.length > 0 ? <p>{words.openTrays(listed(open))}</p> : null}
        {unchecked.length > 0 ? <p>{words.unchecked(listed(unchecked))}</p> : null}
        {differing.length > 0 ? <p>{words.differing(listed(differing))}</p> : null}
      </section>
      <section>
        {holding.length > 0 ? (
          <div class="stop">
            <h2>{words.holdingHeading}</h2>
            <ul class="plain">
              {holding.map(({ name, unsent, lastSeen }) => (
                <li key={name}>{words.holding(name, unsent, heard(lastSeen))}</li>
              ))}
            </ul>
            <p>{words.holdingAdvice}</p>
          </div>
        ) : unknown || perhaps.length > 0 ? null : (
          <p>{words.none}</p>
        )}
        {perhaps.length > 0 ? (
          <>
            <h2>{words.mayHoldHeading}</h2>
            <ul class="plain">
              {perhaps.map(({ name, lastSeen, trays }) => (
                <li key={name}>{words.mayHold(name, listed(trays.map(trayLabel)), heard(lastSeen))}</li>
              ))}
            </ul>
            <p>{words.holdingAdvice}</p>
          </>
        ) : null}
        {unknown ? <p class="stop">{words.unknown}</p> : null}
      </section>
      <section class="heavy">
        <NoteField id="close-note" value={note} onInput={setNote} />
        <ProblemNote thrown={doing.thrown} />
        <WordGate word={words.word} action={words.action} working={words.working} busy={doing.busy} go={close} />
      </section>
    </Page>
  );
}
