import { useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import type { KitchenDay, WaveDay } from "../log/kitchen-day.ts";
import { batchReasons } from "../model/kitchen-event.ts";
import { trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { Labels } from "./day-parts.tsx";
import { begunTrays, freeLabel, writeDay } from "./day-write.ts";
import { Check, Choice } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { potsToRead } from "./reading-entry.ts";
import { BackToDay, NoteField, useDoing } from "./step-parts.tsx";

const words = onDayWords.batch;
const doneId = "batch-done";
type Reason = (typeof batchReasons)[number];
type Typed = { pot: string | null; reason: Reason | null; which: "all" | "some"; trays: number[]; note: string };
const nothing: Typed = { pot: null, reason: null, which: "all", trays: [], note: "" };

const randomBytes = (count: number): Uint8Array => crypto.getRandomValues(new Uint8Array(count));

/** Another batch in the place of one: it gets a label that no pot has yet. */
export function BatchPage({ id, state, day, wave }: { id: string; state: StudyState; day: KitchenDay; wave: WaveDay }) {
  const lead = useLead();
  const doing = useDoing();
  const [typed, setTyped] = useState(nothing);
  const [tried, setTried] = useState(false);
  const [done, setDone] = useState<string | null>(null);
  const heading = words.heading(wave.wave);
  const { pot, reason } = typed;
  const trays = typed.which === "all" ? [] : typed.trays;
  const from = wave.pots.find((each) => each.pot === pot);
  const mine = from?.toServe ?? [];
  const kept = typed.which === "all" ? begunTrays(state, day, from) : [];
  const lacks = trayProblem(typed.which, trays, mine, kept);

  const submit = (): void => {
    setTried(true);
    if (pot === null || reason === null || lacks) return;
    doing.run(async () => {
      const taken = new Set(day.waves.flatMap(({ pots }) => pots.map((each) => each.pot)));
      const becomes = freeLabel(taken, randomBytes);
      if (becomes === null) throw new Error(words.none);
      const body = { wave: wave.wave, pot, becomes, reason, trays, kept, note: typed.note.trim() };
      await writeDay(lead, id, "batch-changed", body);
      setDone(words.done(pot, becomes));
      setTyped(nothing);
      setTried(false);
      focusSoon(doneId, "start");
    });
  };
  return (
    <Page heading={heading} windowTitle={heading}>
      <BackToDay id={id} />
      <div id={doneId} tabIndex={-1} role="status">
        {done === null ? <p class="lead-in">{words.lead}</p> : <p class="note">{done}</p>}
      </div>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <Labels
          id="batch-pot"
          legend={words.pot}
          options={potsToRead(wave).map((each) => ({ value: each.pot, label: each.pot }))}
          value={pot}
          onChange={(chosen) => setTyped({ ...typed, pot: chosen, trays: [] })}
          problem={tried && pot === null ? words.missing.pot : null}
        />
        <Choice
          id="batch-reason"
          legend={words.reason}
          options={batchReasons.map((value) => ({ value, label: words.reasons[value], hint: "" }))}
          value={reason}
          onChange={(chosen) => setTyped({ ...typed, reason: chosen })}
          problem={tried && reason === null ? words.missing.reason : null}
        />
        <Choice
          id="batch-which"
          legend={words.trays}
          options={[
            { value: "all", label: words.all, hint: kept.length > 0 ? words.allBut(kept.map(trayLabel)) : "" },
            { value: "some", label: words.some, hint: "" },
          ]}
          value={typed.which}
          onChange={(which) => setTyped({ ...typed, which })}
          problem={tried ? lacks : null}
        />
        {typed.which === "some" ? (
          <Trays wave={wave} typed={typed} change={(next) => setTyped({ ...typed, trays: next })} />
        ) : null}
        <NoteField id="batch-note" value={typed.note} onInput={(note) => setTyped({ ...typed, note })} />
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
            {words.submit}
          </button>
        </p>
      </form>
    </Page>
  );
}

/** What stands against the choice of trays: none named, or all that there are served already. */
function trayProblem(which: Typed["which"], trays: number[], mine: number[], kept: number[]): string | null {
  if (which === "some") return trays.length === 0 ? words.missing.trays : null;
  return mine.length > 0 && kept.length === mine.length ? words.missing.served : null;
}

type TraysProps = { wave: WaveDay; typed: Typed; change: (trays: number[]) => void };

/** The trays that are served from the pot now, or of the wave while none is chosen. */
function Trays({ wave, typed, change }: TraysProps) {
  const served = wave.pots.find(({ pot }) => pot === typed.pot)?.toServe ?? wave.trays;
  return (
    <fieldset class="field few">
      <legend class="unseen">{words.trays}</legend>
      {served.map((tray) => (
        <Check
          key={tray}
          id={`batch-tray-${tray}`}
          label={trayLabel(tray)}
          checked={typed.trays.includes(tray)}
          onChange={(on) => change(on ? [...typed.trays, tray] : typed.trays.filter((each) => each !== tray))}
        />
      ))}
    </fieldset>
  );
}
