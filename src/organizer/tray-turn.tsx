import type { TrayDay } from "../log/day-trays.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import { trayLabel } from "../model/tray.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { doneAt, nextTurn, waveOfTray, writeDay } from "./day-write.ts";
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
  const other = tray.wave === null || tray.wave === tray.planned ? "" : words.withWave(tray.wave);
  return [wrong ?? done, noted, other].filter(Boolean).join(", ");
}

type TurnProps = {
  id: string;
  day: KitchenDay;
  tray: TrayDay;
  /** Told why a touch did nothing, and null once one did something. */
  refuse: (why: string | null) => void;
};

/** Does to a tray with one touch what comes next; refuses to serve it, with the reason, where serving is stopped. */
export function TurnButton({ id, day, tray, refuse }: TurnProps) {
  const lead = useLead();
  const doing = useDoing();
  const turn = nextTurn(tray);
  if (turn === null) return null;
  const hindrance = turn === "served" ? hindranceOf(day, tray) : null;
  const press = (): void => {
    refuse(hindrance);
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
      <ProblemNote thrown={doing.thrown} />
    </>
  );
}

/** Why a touch did nothing. */
export function Refused({ why }: { why: string }) {
  return (
    <p class="stop" role="alert">
      <strong>{onDayWords.wave.stop}</strong> {why}
    </p>
  );
}

/** Why a tray may not be served now, as a sentence; null where nothing stands against it. */
function hindranceOf(day: KitchenDay, tray: TrayDay): string | null {
  const [halt] = day.halts;
  if (halt) return onDayWords.halt.halted(halt.at, halt.why);
  if (tray.turns.checked.done && !tray.turns.checked.sound) return words.wrongFirst;
  if (tray.person.noWave !== null) return words.noWave(tray.person.noWave);
  return whyNotServed(waveOfTray(day, tray));
}
