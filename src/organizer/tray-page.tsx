import { useState } from "preact/hooks";
import type { TrayDay } from "../log/day-trays.ts";
import type { StudyState } from "../log/fold.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import { attendances } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import { trayLabel } from "../model/tray.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { nextTurn, writeDay } from "./day-write.ts";
import { Select } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { stepAddress } from "./route.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";
import { Refused, TurnButton } from "./tray-turn.tsx";

const words = onDayWords.tray;

type Props = { id: string; plan: Plan; state: StudyState; day: KitchenDay; tray: TrayDay };

/** Everything about one tray: what was done to it, its person, and undoing. */
export function TrayPage({ id, plan, state, day, tray }: Props) {
  const lead = useLead();
  const heading = words.heading(trayLabel(tray.tray));
  const codes = state.trays.get(tray.tray)?.codes ?? [];
  const over = state.close !== null;
  return (
    <Page heading={heading} windowTitle={heading}>
      <BackToDay id={id} />
      <p class="lead-in">
        {tray.wave === null || tray.wave === tray.planned
          ? words.wave(tray.planned)
          : words.moved(tray.planned, tray.wave)}
      </p>
      {tray.person.noWave === null ? null : <p class="note">{words.noWave(tray.person.noWave)}</p>}
      {tray.person.apart ? <p class="note">{words.apart}</p> : null}
      <p class="codes">
        {words.codes}: <strong class="whole">{codes.join(" \u00b7 ")}</strong>
      </p>
      <Turns id={id} day={day} tray={tray} over={over} />
      <Person id={id} plan={plan} tray={tray} over={over} />
      {lead.who.role === "lead" && !state.reveal ? (
        <section>
          <h2>{words.rulings}</h2>
          <p class="day-actions">
            {over ? null : (
              <a class="button" href={stepAddress(id, "spare")}>
                {dayWords.actions.spare}
              </a>
            )}
            <a class="button" href={stepAddress(id, "void")}>
              {dayWords.actions.void}
            </a>
          </p>
        </section>
      ) : null}
    </Page>
  );
}

type PartProps = { id: string; tray: TrayDay; over: boolean };

function Turns({ id, day, tray, over }: PartProps & { day: KitchenDay }) {
  const lead = useLead();
  const doing = useDoing();
  const done = (["filled", "checked", "served"] as const).flatMap((turn) =>
    tray.turns[turn].entries.map(({ id: entry, at, body }) => ({
      entry,
      text:
        turn === "checked" && !body.sound ? words.wrong(organizer.clock(at)) : words.done(turn, organizer.clock(at)),
    })),
  );
  const wrong = (): void =>
    doing.run(async () => {
      const body = {
        tray: tray.tray,
        turn: "checked" as const,
        sound: false,
        after: tray.turns.checked.latest,
        note: "",
      };
      await writeDay(lead, id, "tray-handled", body);
    });
  const next = nextTurn(tray);
  const [refused, setRefused] = useState<string | null>(null);
  return (
    <section>
      <h2>{words.turns}</h2>
      <Entries id={id} entries={done} over={over} />
      {next === "checked" ? <p class="fine">{words.checkHint}</p> : null}
      {over ? null : (
        <div class="day-actions">
          <TurnButton id={id} day={day} tray={tray} refuse={setRefused} />
          {tray.turns.filled.done && !tray.turns.served.done ? (
            <button type="button" onClick={wrong}>
              {words.notSound}
            </button>
          ) : null}
        </div>
      )}
      {refused === null ? null : <Refused why={refused} />}
      <ProblemNote thrown={doing.thrown} />
    </section>
  );
}

/** What was written down, each with the way to take it back. */
function Entries({ id, entries, over }: { id: string; entries: { entry: string; text: string }[]; over: boolean }) {
  const lead = useLead();
  const doing = useDoing();
  return (
    <>
      {entries.map(({ entry, text }) => (
        <p key={entry} class="split">
          <span>{text}</span>
          {over ? null : (
            <button
              type="button"
              class="quiet"
              onClick={() =>
                doing.run(async () => void (await writeDay(lead, id, "entry-voided", { target: entry, note: "" })))
              }
            >
              {onDayWords.pot.takeBack}
              <span class="unseen">{onDayWords.pot.takeBackOf(text)}</span>
            </button>
          )}
        </p>
      ))}
      <ProblemNote thrown={doing.thrown} />
    </>
  );
}

function Person({ id, plan, tray, over }: PartProps & { plan: Plan }) {
  const lead = useLead();
  const doing = useDoing();
  const [wave, setWave] = useState(tray.wave);
  const note = (what: (typeof attendances)[number]): void =>
    doing.run(async () => {
      const body = {
        tray: tray.tray,
        what,
        wave: wave === tray.planned ? null : wave,
        after: tray.person.latest,
        note: "",
      };
      await writeDay(lead, id, "person-noted", body);
    });
  const noted = tray.person.entries.map(({ id: entry, at, body }) => ({
    entry,
    text: words.noted(words.people[body.what], organizer.clock(at)),
  }));
  return (
    <section>
      <h2>{words.person}</h2>
      <Entries id={id} entries={noted} over={over} />
      {over ? null : (
        <>
          <Select
            id="person-wave"
            label={words.with}
            value={String(wave ?? tray.planned)}
            options={plan.waves.map(({ starts }, at) => ({
              value: String(at + 1),
              label: at + 1 === tray.planned ? words.own(at + 1) : words.other(at + 1, starts.trim()),
            }))}
            onChange={(value) => setWave(Number(value))}
          />
          <div class="day-actions">
            {attendances.map((what) => (
              <button key={what} type="button" onClick={() => note(what)}>
                {words.people[what]}
              </button>
            ))}
          </div>
        </>
      )}
      <ProblemNote thrown={doing.thrown} />
    </section>
  );
}
