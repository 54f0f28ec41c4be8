import type { PotDay } from "../log/day-pots.ts";
import type { WaveDay } from "../log/kitchen-day.ts";
import { trayLabel } from "../model/tray.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { writeDay } from "./day-write.ts";
import { ProblemNote } from "./problem-note.tsx";
import { dayStepAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";
import { awaited, startText, stops, windowText } from "./wave-clock.ts";

const words = onDayWords.wave;

type Props = { id: string; number: number; starts: string; wave: WaveDay | null; turns: string; over: boolean };

/** A wave as it stands: how long until it starts, what stops it, both clocks, and its pots. */
export function WaveHead({ id, number, starts, wave, turns, over }: Props) {
  const now = useLead().now();
  const start = startText(starts, now);
  return (
    <>
      {over ? null : <p class="lead-in">{[start, turns].filter(Boolean).join(" \u00b7 ")}</p>}
      {wave && !over ? <Stops wave={wave} /> : null}
      {wave && !over ? <Clocks wave={wave} /> : null}
      {wave ? <Pots id={id} wave={wave} over={over} /> : null}
      {wave && !over ? (
        <p class="day-actions no-print">
          <a class="button" href={dayStepAddress(id, "reading", number)}>
            {words.reading}
          </a>
          <a class="button" href={dayStepAddress(id, "batch", number)}>
            {words.change}
          </a>
        </p>
      ) : null}
    </>
  );
}

function Stops({ wave }: { wave: WaveDay }) {
  // a halt of everything stands once, at the top of the page
  const reasons = stops(wave.blocked.filter(({ why }) => why !== "halted"));
  const waiting = awaited(wave.blocked);
  return (
    <>
      {reasons.length > 0 ? (
        <p class="stop" role="alert">
          <strong>{words.stop}</strong> {words.blocked(wave.wave)} {reasons.join(" ")}
        </p>
      ) : null}
      {waiting.length > 0 ? <p class="note">{words.notYet(wave.wave, waiting)}</p> : null}
      {wave.circle.length > 0 ? <p class="note">{words.circle(wave.circle)}</p> : null}
    </>
  );
}

/** How long the food is at its best, and how long it may be served at all: two clocks, never one. */
function Clocks({ wave }: { wave: WaveDay }) {
  const now = useLead().now();
  // what is awaited says already that somebody has to write when a pot left the heat
  const best = wave.blocked.some(({ why }) => why === "out-unknown") ? null : windowText(wave, now);
  const { safeFor } = wave;
  return (
    <>
      {best === null ? null : <p>{best}</p>}
      {safeFor === null || safeFor <= 0 ? null : <p>{words.safe(safeFor)}</p>}
    </>
  );
}

/** What was written down of each pot, and the way to take an entry back. */
function Pots({ id, wave, over }: { id: string; wave: WaveDay; over: boolean }) {
  const lead = useLead();
  const doing = useDoing();
  const takeBack = (target: string): void =>
    doing.run(async () => {
      await writeDay(lead, id, "entry-voided", { target, note: "" });
    });
  return (
    <details class="pots">
      <summary>
        {words.pots}{" "}
        {wave.pots
          .filter(({ trays }) => trays.length > 0)
          .map(({ pot }) => pot)
          .join(", ")}
      </summary>
      <ul>
        {wave.pots.map((pot) => (
          <li key={pot.pot}>
            <p>
              <strong>{pot.pot}</strong> <span class="fine">{aboutPot(pot)}</span>
            </p>
            {[...changesTo(wave, pot.pot), ...entriesOf(pot)].map(({ entry, text }) => (
              <Entry key={entry} text={text} takeBack={over ? null : () => takeBack(entry)} />
            ))}
          </li>
        ))}
        {wave.servings.map(({ id: entry, at, body }) => (
          <li key={entry}>
            <Entry
              text={onDayWords.pot.served(
                body.celsius,
                body.tray === null ? null : trayLabel(body.tray),
                organizer.clock(at),
              )}
              takeBack={over ? null : () => takeBack(entry)}
            />
          </li>
        ))}
      </ul>
      <ProblemNote thrown={doing.thrown} />
    </details>
  );
}

function Entry({ text, takeBack }: { text: string; takeBack: (() => void) | null }) {
  return (
    <p class="split">
      <span>{text}</span>
      {takeBack ? (
        <button type="button" class="quiet" onClick={takeBack}>
          {onDayWords.pot.takeBack}
          <span class="unseen">{onDayWords.pot.takeBackOf(text)}</span>
        </button>
      ) : null}
    </p>
  );
}

function aboutPot(pot: PotDay): string {
  const say = onDayWords.pot;
  return [pot.toServe.length === 0 ? say.gone : "", entriesOf(pot).length === 0 ? say.nothing : ""]
    .filter(Boolean)
    .join(", ");
}

function entriesOf(pot: PotDay): { entry: string; text: string }[] {
  const say = onDayWords.pot;
  const { says } = say;
  return [
    ...pot.cores.flatMap(({ entry, verdict, allowed }) => {
      const verb = allowed ? says.allowed : verdict.verdict === "no-limit" ? "" : says[verdict.verdict];
      const by = allowed ? say.allowedBy(allowed.body.by.trim(), organizer.clock(allowed.at)) : "";
      return [
        { entry: entry.id, text: joined(say.core(entry.body.celsius, organizer.clock(entry.at)), verb) },
        ...(allowed ? [{ entry: allowed.id, text: by }] : []),
      ];
    }),
    ...pot.leftEntries.map(({ id, body }) => ({ entry: id, text: say.left(body.from, body.left) })),
    ...pot.holdings.map(({ entry, verdict }) => ({
      entry: entry.id,
      text: joined(
        say.held(entry.body.held, entry.body.celsius, organizer.clock(entry.at)),
        verdict.verdict === "no-limit" ? "" : says[verdict.verdict],
      ),
    })),
  ];
}

/** How a pot came to be: taken back, the one before it is served from again. */
const changesTo = ({ changes }: WaveDay, pot: string): { entry: string; text: string }[] =>
  changes
    .filter(({ body }) => body.becomes === pot)
    .map(({ id, at, body }) => ({ entry: id, text: onDayWords.pot.change(body.pot, organizer.clock(at)) }));

const joined = (text: string, verb: string): string => (verb ? `${text}: ${verb}` : text);
