import type { StudyState } from "../log/fold.ts";
import type { DeviceInfo } from "../model/http.ts";
import { organizer } from "../words/en/organizer.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { AddDevice } from "./add-device.tsx";
import { useLead } from "./app-context.ts";
import { DeviceRow } from "./device-row.tsx";
import { fetchStudies, usePolling, useStudies } from "./facts.ts";
import { Page } from "./page.tsx";
import { planOf, stageOf } from "./study-stage.ts";
import { type Devices, useDevices } from "./use-devices.ts";

const studiesEveryMs = 60_000;

/** A study a tablet can be set to, and the length of its line in mm; null for one without. */
export type Servable = { id: string; title: string; lineMm: number | null };

/** The devices of this kitchen: what each serves, when it was last heard, and codes for new ones. */
export function Tablets() {
  const lead = useLead();
  const devices = useDevices();
  const known = useStudies(lead.store);
  const studies = known ?? [];
  // a lead's phone that opens this page first should read titles, not ids
  usePolling(lead, () => fetchStudies(lead), studiesEveryMs, [lead.who.token]);
  const titleOf = (study: string): string => {
    const found = studies.find(({ id }) => id === study);
    return found ? titleIn(found.state) : tabletWords.unknownStudy;
  };
  const servable = studies
    .filter(({ state }) => ["locked", "collecting", "closed"].includes(stageOf(state)))
    .map(({ id, state }) => ({ id, title: titleIn(state), lineMm: state.lock?.body.packet.line?.lengthMm ?? null }));
  const list = (devices.list ?? []).filter(
    (device) => !device.revoked || (device.status?.unsent ?? 0) > 0 || device.unreadable > 0,
  );
  const offline = devices.fetching.thrown !== null;
  const others = list.filter(({ id }) => id !== lead.who.device);
  return (
    <Page
      heading={devices.list !== null && others.length === 0 ? tabletWords.emptyHeading : tabletWords.heading}
      windowTitle={tabletWords.heading}
      wide
    >
      {offline ? <p class="note">{tabletWords.offline}</p> : null}
      {devices.list !== null && others.length === 0 ? <p class="lead-in">{tabletWords.empty}</p> : null}
      {others.length > 0 ? <DeviceTable list={list} servable={servable} titleOf={titleOf} devices={devices} /> : null}
      {others.length > 0 ? <p class="fine after">{tabletWords.withdrawNote}</p> : null}
      {/* before the studies are read, a code made in haste would be for none of them */}
      {known === undefined ? null : <AddDevice servable={servable} devices={devices} />}
    </Page>
  );
}

const titleIn = (state: StudyState): string => planOf(state)?.title.trim() || organizer.untitled;

type TableProps = {
  list: DeviceInfo[];
  servable: Servable[];
  titleOf: (study: string) => string;
  devices: Devices;
};

function DeviceTable({ list, ...rest }: TableProps) {
  const { columns } = tabletWords;
  return (
    <table class="devices">
      <thead>
        <tr>
          <th scope="col">{columns.name}</th>
          <th scope="col">{columns.study}</th>
          <th scope="col">{columns.seen}</th>
          <th scope="col">{columns.unsent}</th>
          <th scope="col">{columns.checks}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {list.map((device) => (
          <DeviceRow key={device.id} device={device} {...rest} />
        ))}
      </tbody>
    </table>
  );
}
