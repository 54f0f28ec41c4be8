import { useState } from "preact/hooks";
import type { KitchenDay } from "../log/kitchen-day.ts";
import { haltReasons } from "../model/kitchen-event.ts";
import { focusSoon } from "../ui/focus.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { writeDay } from "./day-write.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";

const words = onDayWords.halt;
const askId = "halt-asking";

/** Stops tasting everywhere with one touch and one more; shows what was stopped, and lets a lead go on. */
export function HaltPart({ id, day, over }: { id: string; day: KitchenDay; over: boolean }) {
  const lead = useLead();
  const doing = useDoing();
  const [asking, setAsking] = useState(false);
  const { halts } = day;
  const halt = (why: (typeof haltReasons)[number]): void =>
    doing.run(async () => {
      await writeDay(lead, id, "serving-halted", { why });
      setAsking(false);
    });
  const resume = (): void =>
    doing.run(async () => {
      await writeDay(lead, id, "serving-resumed", { halts: halts.map((each) => each.id), note: "" });
    });
  if (over) return null;
  return (
    <div class="no-print">
      {halts.length > 0 ? (
        <div class="stop" role="alert">
          {halts.map(({ id: which, at, why }) => (
            <p key={which}>
              <strong>{onDayWords.wave.stop}</strong> {words.halted(at, why)}
            </p>
          ))}
          {halts.some(({ why }) => why === "person") ? <p>{words.person}</p> : null}
          <p>{words.tablets}</p>
        </div>
      ) : null}
      {halts.length > 0 ? (
        <p class="day-actions">
          {lead.who.role === "lead" ? (
            <button type="button" onClick={resume}>
              {words.resume}
            </button>
          ) : (
            words.leadResumes
          )}
        </p>
      ) : null}
      {halts.length === 0 && !asking ? (
        <p class="day-actions">
          <button
            type="button"
            onClick={() => {
              setAsking(true);
              focusSoon(askId);
            }}
          >
            {words.stop}
            {"\u2026"}
          </button>
        </p>
      ) : null}
      {halts.length === 0 && asking ? (
        <section class="asked-halt" aria-labelledby={askId}>
          <h2 id={askId} tabIndex={-1}>
            {words.asking}
          </h2>
          <p class="fine">{words.person}</p>
          <div class="day-actions">
            {haltReasons.map((why) => (
              <button key={why} type="button" onClick={() => halt(why)}>
                {words.whys[why]}
              </button>
            ))}
            <button type="button" onClick={() => setAsking(false)}>
              {words.no}
            </button>
          </div>
        </section>
      ) : null}
      <ProblemNote thrown={doing.thrown} />
    </div>
  );
}
