import { useMemo, useRef, useState } from "preact/hooks";
import { trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { weighWords as words } from "../words/en/organizer-weigh.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { BalancePart } from "./balance-part.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { BackToDay, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useWaits } from "./use-waits.ts";
import {
  isWhole,
  lastOwn,
  nextTarget,
  type Target,
  targetOfTray,
  type WeighRow,
  weighPlanOf,
  weighRows,
} from "./weigh.ts";
import { WeighFiles } from "./weigh-files.tsx";
import { OtherTray, readingField, WeighForm } from "./weigh-form.tsx";
import { WeighList } from "./weigh-list.tsx";

/** Where whoever weighs enters what the balance shows, by tray and code. Of products it knows nothing. */
export function WeighPortions({ id, state }: StudyProps) {
  const rows = useMemo(() => weighRows(state), [state]);
  const plan = useMemo(() => weighPlanOf(state, rows), [state, rows]);
  const [picked, setPicked] = useState<Target | null>(null);
  const [before, setBefore] = useState<Target | null>(null);
  const open = state.reveal === null && plan !== null;
  const waits = useWaits(id, rows);
  const target = picked ?? nextTarget(rows, before);
  const row = rows.find(({ tray, code }) => tray === target?.tray && code === target.code);
  const [back, setBack] = useState(false);
  /** From the first entry or pick on each new form takes the focus: it may appear before the old one knows that it kept. */
  const entering = useRef(false);
  const pick = (next: Target): void => {
    entering.current = true;
    setPicked(next);
    // the form may be there already
    focusSoon(readingField, "center");
  };
  return (
    <Page heading={words.heading} windowTitle={words.heading} wide>
      <BackToDay id={id} />
      {plan === null ? (
        <p class="lead-in">{words.notWeighed}</p>
      ) : (
        <>
          <p class="lead-in" aria-live="polite">
            {words.whole(rows.filter(isWhole).length, rows.filter(({ spare }) => !spare).length)}
          </p>
          <p class="fine weigh-state">{open ? words.blind : words.over}</p>
        </>
      )}
      {open && target && row ? (
        <WeighForm
          key={`${target.tray} ${target.code} ${target.stage}`}
          id={id}
          row={row}
          stage={target.stage}
          plan={plan}
          focus={entering.current}
          waited={() => waits(row)}
          onKeep={() => {
            entering.current = true;
            setBefore(target);
            setBack(false);
          }}
          onKept={() => setPicked(null)}
        />
      ) : null}
      {open && !target ? <p class="note">{rows.every(isWhole) ? words.allDone : words.nothingWaits}</p> : null}
      {open ? <BalancePart /> : null}
      {open ? <LastEntry id={id} rows={rows} back={back} onBack={() => setBack(true)} /> : null}
      {open ? <OtherTray find={(tray) => targetOfTray(rows, tray)} onFound={pick} /> : null}
      {plan ? (
        <>
          <WeighList rows={rows} waits={waits} target={open ? target : null} onPick={open ? pick : null} />
          <WeighFiles id={id} rows={rows} plan={plan} open={open} />
        </>
      ) : null}
    </Page>
  );
}

type LastProps = { id: string; rows: readonly WeighRow[]; back: boolean; onBack: () => void };

/** What this device entered last, and the way to take it back. */
function LastEntry({ id, rows, back, onBack }: LastProps) {
  const lead = useLead();
  const doing = useDoing();
  const last = lastOwn(rows, lead.who.device);
  const several = (last?.entries.length ?? 0) > 1;
  const takeBack = (): void =>
    doing.run(async () => {
      for (const target of last?.entries ?? []) {
        await appendEvent(lead, { stream: { kind: "study", id }, kind: "entry-voided", body: { target, note: "" } });
      }
      onBack();
      focusSoon(readingField, "center");
    });
  if (!last && !back) return null;
  return (
    <div class="kept-last">
      <p role="status">
        {back ? `${words.tookBack} ` : ""}
        {last
          ? several
            ? words.lastFile(last.entries.length, last.note)
            : words.last(words.target(trayLabel(last.target.tray), last.target.code), last.target.stage, last.grams)
          : ""}
      </p>
      {last ? (
        <button type="button" class="quiet" aria-disabled={doing.busy ? "true" : undefined} onClick={takeBack}>
          {several ? words.takeBackAll : words.takeBack}
        </button>
      ) : null}
      <ProblemNote thrown={doing.thrown} />
    </div>
  );
}
