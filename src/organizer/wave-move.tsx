import { useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import { trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { traysToMove, writeDay } from "./day-write.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";

const words = onDayWords.move;

type Props = { id: string; state: StudyState; day: KitchenDay; wave: number; next: number };

/** All trays of a wave that nobody has begun go with the next one: one touch and one more. Each is noted by itself, and is taken back so. */
export function MoveRest({ id, state, day, wave, next }: Props) {
  const lead = useLead();
  const doing = useDoing();
  const [asking, setAsking] = useState(false);
  const { empty: trays, filled } = traysToMove(state, day, wave);
  const askId = `move-${wave}`;
  const move = (): void =>
    doing.run(async () => {
      for (const { tray, planned, person } of trays) {
        const body = {
          tray,
          // nobody says here whose fault it is
          what: "here" as const,
          wave: next === planned ? null : next,
          after: person.latest,
          note: "",
        };
        await writeDay(lead, id, "person-noted", body);
      }
      setAsking(false);
    });
  if (trays.length === 0) return null;
  if (!asking) {
    return (
      <p class="day-actions no-print">
        <button
          type="button"
          class="quiet"
          onClick={() => {
            setAsking(true);
            focusSoon(askId);
          }}
        >
          {words.ask(trays.length, next)}
          {"\u2026"}
        </button>
      </p>
    );
  }
  return (
    <div class="no-print">
      <p id={askId} tabIndex={-1}>
        {words.asking(
          trays.map(({ tray }) => trayLabel(tray)),
          next,
        )}{" "}
        {filled.length > 0
          ? words.filled(
              filled.map(({ tray }) => trayLabel(tray)),
              wave,
            )
          : null}
      </p>
      <p class="day-actions">
        <button type="button" aria-disabled={doing.busy ? "true" : undefined} onClick={move}>
          {words.yes(next)}
        </button>
        <button type="button" class="quiet" onClick={() => setAsking(false)}>
          {words.no}
        </button>
      </p>
      <ProblemNote thrown={doing.thrown} />
    </div>
  );
}
