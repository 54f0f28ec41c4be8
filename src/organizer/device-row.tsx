import { call } from "../device/transport.ts";
import { type DeviceInfo, deviceInfo } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { focusSoon } from "../ui/focus.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { type Lead, useLead } from "./app-context.ts";
import { minutesBetween } from "./day.ts";
import { checksOf, isQuiet } from "./device-checks.ts";
import { headingId } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import type { Servable } from "./tablets.tsx";
import type { Devices } from "./use-devices.ts";
import { Withdraw } from "./withdraw.tsx";

/** Changes a device on the server. Throws the Problem. */
async function changeDevice(
  lead: Lead,
  device: string,
  change: { study?: string | null; revoked?: true },
): Promise<void> {
  const outcome = await call(lead.fetcher, deviceInfo, `/api/devices/${device}`, {
    token: lead.who.token,
    body: change,
  });
  if (!outcome.ok) throw new Problem(outcome.problem);
}

type Props = { device: DeviceInfo; servable: Servable[]; titleOf: (study: string) => string; devices: Devices };

/** One device: what it serves, when it was heard of, what it still holds, and what it said of itself. */
export function DeviceRow({ device, servable, titleOf, devices }: Props) {
  const lead = useLead();
  const doing = useDoing();
  const change = (what: { study?: string | null; revoked?: true }): void =>
    doing.run(async () => {
      await changeDevice(lead, device.id, what);
      await devices.refresh();
      // the row of a withdrawn device, and the button that was pressed, are gone
      if (what.revoked) focusSoon(headingId);
    });
  const self = device.id === lead.who.device;
  return (
    <tr>
      <th scope="row">
        {devices.nameOf(device.id)} <span class="fine">{self ? tabletWords.self : tabletWords.roles[device.role]}</span>
        {device.unreadable > 0 ? <p class="fine">{tabletWords.unreadable(device.unreadable)}</p> : null}
        <ProblemNote thrown={doing.thrown} />
      </th>
      <td>
        {device.role === "panel" && !device.revoked ? (
          <Serves device={device} servable={servable} titleOf={titleOf} onStudy={(study) => change({ study })} />
        ) : null}
      </td>
      <td>
        <Heard device={device} now={lead.now()} />
      </td>
      <td>
        <Unsent device={device} />
      </td>
      <td class="checks">
        {checksOf(device, servable.find(({ id }) => id === device.study)?.lineMm ?? null).map((check) => (
          <p key={check}>{check}</p>
        ))}
      </td>
      <td class="number">
        {device.revoked ? tabletWords.withdrawn : null}
        {device.revoked || self ? null : <Withdraw device={device} onYes={() => change({ revoked: true })} />}
      </td>
    </tr>
  );
}

function Heard({ device, now }: { device: DeviceInfo; now: string }) {
  const { tablets } = dayWords;
  if (device.lastSeen === null) return <>{tablets.never}</>;
  const battery = device.status?.battery ?? null;
  return (
    <>
      {tablets.since(minutesBetween(device.lastSeen, now))}
      {battery === null ? "" : `, ${tablets.battery(battery)}`}
      {isQuiet(device, now) ? <span class="fine"> {tabletWords.quiet}</span> : null}
    </>
  );
}

/** What it said when it was last heard; on a phone, where columns have no heads, with the word beside it. */
function Unsent({ device: { status } }: { device: DeviceInfo }) {
  if (!status) return null;
  if (status.unsent === 0) return <>{tabletWords.allSent}</>;
  return (
    <>
      {status.unsent}
      <span class="narrow-only"> {tabletWords.columns.unsent}</span>
    </>
  );
}

type ServesProps = Pick<Props, "device" | "servable" | "titleOf"> & { onStudy: (study: string | null) => void };

function Serves({ device, servable, titleOf, onStudy }: ServesProps) {
  const known = servable.some(({ id }) => id === device.study);
  return (
    <select
      aria-label={tabletWords.studyOf(device.name)}
      value={device.study ?? ""}
      onChange={(event) => onStudy(event.currentTarget.value || null)}
    >
      <option value="">{tabletWords.noStudy}</option>
      {servable.map(({ id, title }) => (
        <option key={id} value={id}>
          {title}
        </option>
      ))}
      {device.study && !known ? <option value={device.study}>{titleOf(device.study)}</option> : null}
    </select>
  );
}
