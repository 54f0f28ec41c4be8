import type { KitchenDay } from "../log/kitchen-day.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { writeDay } from "./day-write.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";

const words = onDayWords.sheets;

/** Papers with the key that were printed: whether they are back with the lead, and the touch that says so. */
export function SheetsBack({ id, day, over }: { id: string; day: KitchenDay; over: boolean }) {
  const lead = useLead();
  const doing = useDoing();
  return (
    <>
      {day.sheets.map(({ paper, back }) => {
        const [first] = back;
        if (first) {
          return (
            <p key={paper} class="fine">
              {words.back(words.names[paper], organizer.clock(first.at))}
            </p>
          );
        }
        return (
          <p key={paper} class="split sheet-out">
            <span>{words.out(words.names[paper])}</span>
            {over ? null : (
              <button
                type="button"
                onClick={() =>
                  doing.run(async () => void (await writeDay(lead, id, "sheet-returned", { paper, note: "" })))
                }
              >
                {words.submit}
                <span class="unseen">: {words.names[paper]}</span>
              </button>
            )}
          </p>
        );
      })}
      <ProblemNote thrown={doing.thrown} />
    </>
  );
}
