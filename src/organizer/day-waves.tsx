import { useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import type { KitchenDay } from "../log/kitchen-day.ts";
import type { Plan } from "../model/plan.ts";
import { trayLabel } from "../model/tray.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { type DayRow, dayRows } from "./day.ts";
import { dayStepAddress, stepAddress } from "./route.ts";
import { Refused, TurnButton, turnText } from "./tray-turn.tsx";
import { type Devices, whereOf } from "./use-devices.ts";
import { WaveHead } from "./wave-head.tsx";
import { MoveRest } from "./wave-move.tsx";

type Props = {
  id: string;
  state: StudyState;
  plan: Plan;
  day: KitchenDay;
  /** The tablets, for whoever may know them. */
  devices: Devices | null;
};

/** Wave by wave: how it stands with the food, and its trays. It says how many are answered, never what. */
export function DayWaves({ id, state, plan, day, devices }: Props) {
  return (
    <>
      {dayRows(state).map(({ wave, rows }) => (
        <Wave key={wave} {...{ id, state, plan, day, devices, wave, rows }} />
      ))}
    </>
  );
}

function Wave(props: Props & { wave: number; rows: DayRow[] }) {
  const { id, state, plan, day, devices, wave, rows } = props;
  const planned = rows.filter((row) => !row.spare);
  const answered = planned.filter((row) => row.status === "answered").length;
  const starts = plan.waves[wave - 1]?.starts ?? "";
  const words = dayWords.columns;
  return (
    <section>
      <h2 class="split">
        {dayWords.wave(wave, starts)} <span class="fine">{dayWords.ofWave(answered, planned.length)}</span>
      </h2>
      <WaveHead
        id={id}
        number={wave}
        starts={starts}
        wave={day.waves.find((each) => each.wave === wave) ?? null}
        turns={turnCounts(day, planned)}
        over={state.close !== null}
      />
      {state.close === null && plan.waves[wave] ? <MoveRest {...{ id, state, day, wave, next: wave + 1 }} /> : null}
      <table class={devices ? "day" : "day few"}>
        <thead>
          <tr>
            <th scope="col">{words.tray}</th>
            <th scope="col">{words.state}</th>
            {devices ? (
              <th scope="col" class="wide-only">
                {words.tablet}
              </th>
            ) : null}
            <th scope="col" class="number">
              {words.time}
            </th>
            <th scope="col" class="number">
              {words.next}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.tray} {...{ id, state, day, devices, row }} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** How far the kitchen is with the trays of a wave; empty before it began. */
function turnCounts(day: KitchenDay, planned: readonly DayRow[]): string {
  const trays = planned.flatMap(({ tray }) => day.trays.get(tray) ?? []);
  const done = (turn: "filled" | "checked" | "served") =>
    trays.filter(({ turns }) => turns[turn].done && (turn !== "checked" || turns.checked.sound)).length;
  const [filled, checked, served] = [done("filled"), done("checked"), done("served")];
  return filled + checked + served === 0 ? "" : onDayWords.wave.counts(filled, checked, served);
}

function Row({ id, state, day, devices, row }: Pick<Props, "id" | "state" | "day" | "devices"> & { row: DayRow }) {
  const [refused, setRefused] = useState<string | null>(null);
  const tray = day.trays.get(row.tray);
  const label = row.spare ? dayWords.spareTray(trayLabel(row.tray)) : trayLabel(row.tray);
  const toServe = row.status === "waiting" && state.close === null;
  return (
    <>
      <tr class={row.status === "waiting" || row.status === "spare" ? "quiet" : undefined}>
        <th scope="row">
          <a href={dayStepAddress(id, "tray", row.tray)}>{label}</a>
        </th>
        <td>
          <StatusCell id={id} row={row} served={tray?.turns.served.done === true} />
          {tray ? <span class="fine handled">{turnText(tray)}</span> : null}
        </td>
        {devices ? <td class="wide-only">{row.ballots.map((ballot) => whereOf(ballot, devices)).join(", ")}</td> : null}
        <td class="number">{row.ballots.map(({ at }) => (at ? organizer.clock(at) : "")).join(", ")}</td>
        <td class="number turn">
          {tray && toServe ? <TurnButton id={id} day={day} tray={tray} refuse={setRefused} /> : null}
        </td>
      </tr>
      {refused !== null && toServe ? (
        <tr>
          <td colSpan={devices ? 5 : 4}>
            <Refused why={refused} />
          </td>
        </tr>
      ) : null}
    </>
  );
}

function StatusCell({ id, row, served }: { id: string; row: DayRow; served: boolean }) {
  const { who } = useLead();
  const text = row.status === "waiting" && served ? dayWords.atPanelist : dayWords.status[row.status];
  const [paper] = row.ballots.flatMap(({ paper: of, voided }) => (of && !voided ? [dayWords.paper[of]] : []));
  if (who.role === "lead" && row.status === "contested") return <a href={stepAddress(id, "settle")}>{text}</a>;
  if (who.role === "lead" && row.status === "late") return <a href={stepAddress(id, "admit")}>{text}</a>;
  return (
    <>
      {text}
      {row.kept ? <span class="fine"> {dayWords.kept(row.kept.questions, row.kept.of)}</span> : null}
      {paper === undefined ? null : (
        <>
          <br />
          <span class="fine">
            {row.typedAnew ? `${dayWords.typedAnew} ` : ""}
            {paper}
          </span>
        </>
      )}
      {row.instead === null ? null : <span class="fine whole"> {dayWords.instead(trayLabel(row.instead))}</span>}
    </>
  );
}
