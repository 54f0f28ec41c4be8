import { useState } from "preact/hooks";
import type { TrayDay } from "../log/day-trays.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import { trayLabel } from "../model/tray.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { doneAt, nextTurn, type TrayTurn, waveOfTray, writeDay } from "./day-write.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import { whyNotServed } from "./wave-clock.ts";

const words = onDayWords.tray;

/** What was last done to a tray, and what was noted of its person. */
export function turnText(tray: TrayDay): string {
  const { turns, person } = tray;
  const last = (["served", "checked", "filled"] as const).find((turn) => turns[turn].done);
  const at = last === undefined ? null : doneAt(turns[last]);
  const done = last === undefined || at === null ? "" : words.done(last, organizer.clock(at));
  const wrong = last === "checked" && !turns.checked.sound && at !== null ? words.wrong(organizer.clock(at)) : null;
  const noted = person.what === null || person.what === "here" ? "" : words.people[person.what];
  return [wrong ?? done, noted].filter(Boolean).join(", ");
}

/** Does a tray with the next touch what comes next; says why not, where serving is stopped. */
export function TurnButton({ id, day, tray }: { id: string; day: KitchenDay; tray: TrayDay }) {
  const turn = nextTurn(tray);
  return turn === null ? null : <OneTurn id={id} day={day} tray={tray} turn={turn} />;
}

type OneProps = { id: string; day: KitchenDay; tray: TrayDay; turn: TrayTurn };

function OneTurn({ id, day, tray, turn }: OneProps) {
  const lead = useLead();
  const doing = useDoing();
  const [refused, setRefused] = useState<string | null>(null);
  const hindrance = turn === "served" ? hindranceOf(day, tray) : null;
  const press = (): void => {
    setRefused(hindrance);
    if (hindrance !== null) return;
    const body = { tray: tray.tray, turn, sound: true, after: tray.turns[turn].latest, note: "" };
    doing.run(async () => void (await writeDay(lead, id, "tray-handled", body)));
  };
  return (
    <>
      <button type="button" aria-disabled={hindrance !== null || doing.busy ? "true" : undefined} onClick={press}>
        {words.turn[turn]}
        <span class="unseen"> {words.open(trayLabel(tray.tray))}</span>
      </button>
      {refused !== null && hindrance !== null ? (
        <p class="stop" role="alert">
          <strong>{onDayWords.wave.stop}</strong> {hindrance}
        </p>
      ) : null}
      <ProblemNote thrown={doing.thrown} />
    </>
  );
}

/** Why a tray may not be served now, as a sentence; null where nothing stands against it. */
export function hindranceOf(day: KitchenDay, tray: TrayDay): string | null {
  const [halt] = day.halts;
  if (halt) return onDayWords.halt.halted(halt.at, halt.why);
  if (tray.turns.checked.done && !tray.turns.checked.sound) return words.wrongFirst;
  return whyNotServed(waveOfTray(day, tray));
}
