import { useState } from "preact/hooks";
import { call } from "../device/transport.ts";
import { type DeviceInfo, deviceInfo } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { focusSoon } from "../ui/focus.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { AddDevice } from "./add-device.tsx";
import { type Lead, useLead } from "./app-context.ts";
import { minutesBetween } from "./day.ts";
import { useStudies } from "./facts.ts";
import { headingId, Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import { planOf, stageOf } from "./study-stage.ts";
import { type Devices, useDevices } from "./use-devices.ts";

/** A study a tablet can be set to. */
export type Servable = { id: string; title: string };

/** The devices of this kitchen: what each serves, when it was last heard, and codes for new ones. */
export function Tablets() {
  const lead = useLead();
  const devices = useDevices();
  const studies = useStudies(lead.store) ?? [];
  const servable = studies
    .filter(({ state }) => ["locked", "collecting", "closed"].includes(stageOf(state)))
    .map(({ id, state }) => ({ id, title: planOf(state)?.title.trim() || organizer.untitled }));
  const list = (devices.list ?? []).filter(
    (device) => !device.revoked || (device.status?.unsent ?? 0) > 0 || device.unreadable > 0,
  );
  const offline = devices.fetching.thrown !== null;
  const others = list.filter(({ id }) => id !== lead.who.device);
  return (
    <Page
      heading={devices.list !== null && others.length === 0 ? tabletWords.emptyHeading : tabletWords.heading}
      windowTitle={tabletWords.heading}
      margin={<p>{tabletWords.withdrawNote}</p>}
      wide
    >
      {offline ? <p class="note">{tabletWords.offline}</p> : null}
      {devices.list !== null && others.length === 0 ? <p class="lead-in">{tabletWords.empty}</p> : null}
      {others.length > 0 ? <DeviceTable list={list} servable={servable} devices={devices} /> : null}
      <AddDevice servable={servable} />
    </Page>
  );
}

function DeviceTable({ list, servable, devices }: { list: DeviceInfo[]; servable: Servable[]; devices: Devices }) {
  const { columns } = tabletWords;
  return (
    <table class="devices">
      <thead>
        <tr>
          <th scope="col">{columns.name}</th>
          <th scope="col">{columns.study}</th>
          <th scope="col">{columns.seen}</th>
          <th scope="col">{columns.unsent}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {list.map((device) => (
          <DeviceRow key={device.id} device={device} servable={servable} devices={devices} />
        ))}
      </tbody>
    </table>
  );
}

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

function DeviceRow({ device, servable, devices }: { device: DeviceInfo; servable: Servable[]; devices: Devices }) {
  const lead = useLead();
  const doing = useDoing();
  const { tablets } = dayWords;
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
        {device.name} <span class="fine">{self ? tabletWords.self : tabletWords.roles[device.role]}</span>
        {device.unreadable > 0 ? <p class="fine">{tabletWords.unreadable(device.unreadable)}</p> : null}
        <ProblemNote thrown={doing.thrown} />
      </th>
      <td>
        {device.role === "panel" && !device.revoked ? (
          <Serves device={device} servable={servable} onStudy={(study) => change({ study })} />
        ) : null}
      </td>
      <td>
        {device.lastSeen ? tablets.since(minutesBetween(device.lastSeen, lead.now())) : tablets.never}
        {device.status?.battery != null ? `, ${tablets.battery(device.status.battery)}` : ""}
      </td>
      <td>{device.status && device.status.unsent > 0 ? device.status.unsent : ""}</td>
      <td class="number">
        {device.revoked ? tabletWords.withdrawn : null}
        {device.revoked || self ? null : <Withdraw device={device} onYes={() => change({ revoked: true })} />}
      </td>
    </tr>
  );
}

/** The question before a device is shut out. The focus goes to No, so that a second Enter does no harm. */
export function Withdraw({ device, onYes }: { device: Pick<DeviceInfo, "id" | "name">; onYes: () => void }) {
  const [asking, setAsking] = useState(false);
  const ids = { button: `withdraw-${device.id}`, no: `withdraw-no-${device.id}` };
  const ask = (now: boolean): void => {
    setAsking(now);
    focusSoon(now ? ids.no : ids.button);
  };
  if (!asking) {
    return (
      <button type="button" class="quiet" id={ids.button} onClick={() => ask(true)}>
        {tabletWords.withdraw}
        <span class="unseen">{tabletWords.withdrawOf(device.name)}</span>
      </button>
    );
  }
  return (
    <fieldset class="asking" aria-label={tabletWords.asking(device.name)}>
      <button type="button" class="quiet" onClick={onYes}>
        {tabletWords.yes}
      </button>{" "}
      <button type="button" class="quiet" id={ids.no} onClick={() => ask(false)}>
        {tabletWords.no}
      </button>
    </fieldset>
  );
}

function Serves(props: { device: DeviceInfo; servable: Servable[]; onStudy: (study: string | null) => void }) {
  const { device, servable, onStudy } = props;
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
      {device.study && !known ? <option value={device.study}>{device.study.slice(0, 8)}</option> : null}
    </select>
  );
}
