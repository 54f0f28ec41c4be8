import type { PortionStage } from "../log/portions.ts";
import { portionStages } from "../model/kitchen-event.ts";
import { trayLabel } from "../model/tray.ts";
import { weighWords as words } from "../words/en/organizer-weigh.ts";
import { isWhole, type Target, type WeighRow } from "./weigh.ts";

type Props = {
  rows: readonly WeighRow[];
  /** For how many seconds a closed cup has waited; null: it does not. */
  waits: (row: WeighRow) => number | null;
  target: Target | null;
  /** Null once nothing can be entered any more. */
  onPick: ((target: Target) => void) | null;
};

/** All portions by wave, with what was read of each; a cell is the way to enter or correct it. */
export function WeighList({ rows, waits, target, onPick }: Props) {
  const waves = [...new Set(rows.map(({ wave }) => wave))];
  return (
    <>
      {waves.map((wave) => {
        const own = rows.filter((row) => row.wave === wave);
        const planned = own.filter(({ spare }) => !spare);
        return (
          <section key={wave}>
            <h2 class="split">
              {words.wave(wave)}{" "}
              <span class="fine">{words.ofWave(planned.filter(isWhole).length, planned.length)}</span>
            </h2>
            <table class="weigh-list">
              <thead>
                <tr>
                  <th scope="col">{words.columns.tray}</th>
                  <th scope="col">{words.columns.code}</th>
                  {portionStages.map((stage) => (
                    <th scope="col" class="number" key={stage}>
                      {words.columns[stage]}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {own.map((row) => (
                  <PortionRow key={`${row.tray} ${row.code}`} row={row} waits={waits} target={target} onPick={onPick} />
                ))}
              </tbody>
            </table>
          </section>
        );
      })}
    </>
  );
}

function PortionRow({ row, waits, target, onPick }: { row: WeighRow } & Omit<Props, "rows">) {
  const { tray, code, spare, place } = row;
  const first = place === 1;
  const here = target?.tray === tray && target.code === code;
  return (
    <tr class={here ? "here" : undefined}>
      <td>
        {first ? trayLabel(tray) : <span class="unseen">{trayLabel(tray)}</span>}
        {first && spare ? <span class="fine"> {words.spare}</span> : null}
      </td>
      <th scope="row">{code}</th>
      {portionStages.map((stage) => (
        <td class="number" key={stage}>
          <Cell row={row} waited={waits(row)} stage={stage} here={here && target?.stage === stage} onPick={onPick} />
        </td>
      ))}
    </tr>
  );
}

type CellProps = { row: WeighRow; waited: number | null; stage: PortionStage; here: boolean; onPick: Props["onPick"] };

function Cell({ row, waited, stage, here, onPick }: CellProps) {
  const readings = row[stage].map(({ grams }) => grams);
  const [one = ""] = readings;
  const shown = readings.length > 1 ? words.several : one;
  const target = { tray: row.tray, code: row.code, stage };
  if (!onPick) return <>{shown || "–"}</>;
  return (
    <button
      type="button"
      class={readings.length === 1 ? "quiet read" : "quiet"}
      aria-label={words.pick(stage, words.target(trayLabel(row.tray), row.code), shown)}
      aria-current={here ? "true" : undefined}
      onClick={() => onPick(target)}
    >
      {shown || (stage === "after" && row.chewed ? words.waits(Math.floor((waited ?? 0) / 60)) : "–")}
    </button>
  );
}
