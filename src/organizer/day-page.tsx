import type { StudyState } from "../log/fold.ts";
import type { DeviceInfo } from "../model/http.ts";
import { planParts } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { useLead } from "./app-context.ts";
import { BlankNote } from "./blank-study.tsx";
import { CopiedFrom } from "./copied-from.tsx";
import { minutesBetween, progressOf, tabletsOf } from "./day.ts";
import { DayActions } from "./day-actions.tsx";
import { DayFiles } from "./day-files.tsx";
import { useDay } from "./day-step.tsx";
import { DayWaves } from "./day-waves.tsx";
import { Invented } from "./invented.tsx";
import { DayTop } from "./kitchen-today.tsx";
import { LookLine } from "./look-page.tsx";
import { Page } from "./page.tsx";
import { PlanAsFile } from "./plan-as-file.tsx";
import { summaryOf } from "./plan-summary.ts";
import { devicesAddress, stepAddress } from "./route.ts";
import type { StudyProps } from "./study.tsx";
import { StudyClaims } from "./study-claims.tsx";
import { planOf } from "./study-stage.ts";
import { type Devices, useDevices } from "./use-devices.ts";

/** The tasting day: how many trays are answered and where, never what. */
export function Day({ id, state, fetching }: StudyProps) {
  const devices = useDevices();
  const plan = planOf(state);
  if (!plan) throw new Error("a locked study has a plan");
  const day = useDay(state);
  const { answered, planned, spares } = progressOf(state);
  const title = plan.title.trim() || organizer.untitled;
  return (
    <Page heading={title} windowTitle={title} margin={<Margin state={state} />} wide>
      <p class="fine under">{stageLine(state)}</p>
      <CopiedFrom plan={plan} />
      <StudyClaims study={id} plan={plan} />
      <p class="lead-in count" aria-live="polite">
        {dayWords.answered(answered, planned)}
        {spares > 0 ? ` ${dayWords.andSpares(spares)}` : ""}
      </p>
      <LookLine state={state} />
      {fetching.thrown === null ? null : <p class="note">{dayWords.unreachable(fetching.at)}</p>}
      {state.offPlan.length > 0 ? <p class="note">{dayWords.offPlan(state.offPlan.length)}</p> : null}
      {state.rivals.length > 0 ? <p class="note">{dayWords.rivals(state.rivals.length)}</p> : null}
      <BlankNote plan={plan} />
      <Invented plan={plan} opens={state.reveal === null} taste={state.close === null} />
      <DayTop id={id} state={state} />
      <DayActions id={id} state={state} />
      <DayWaves id={id} state={state} plan={plan} day={day} devices={devices} />
      <Tablets id={id} devices={devices} over={state.close !== null} />
      {day.labeled ? <DayFiles id={id} day={day} plan={plan} open={state.close === null} /> : null}
      <LockedPlan id={id} plan={plan} />
    </Page>
  );
}

function stageLine(state: StudyState): string {
  const words = dayWords.stage;
  const parts = [
    state.lock ? words.locked(state.lock.at) : "",
    state.close ? words.closed(state.close.at) : "",
    state.reveal ? words.revealed(state.reveal.at) : "",
  ];
  return parts.filter(Boolean).join(organizer.status.join);
}

function Margin({ state }: { state: StudyState }) {
  return (
    <>
      {state.reveal ? null : <p>{dayWords.sealed}</p>}
      {state.lock ? <p>{dayWords.commitment(state.lock.body.sealed.commitment)}</p> : null}
    </>
  );
}

function Tablets({ id, devices, over }: { id: string; devices: Devices; over: boolean }) {
  const words = dayWords.tablets;
  const lead = useLead();
  const mine = devices.list === null ? [] : tabletsOf(devices.list, id);
  // a study that is over needs no tablet, and its own may have gone on to another
  if (over && mine.length === 0) return null;
  return (
    <section>
      <h2>{words.heading}</h2>
      {devices.list === null && devices.fetching.thrown !== null ? <p>{words.unknown}</p> : null}
      {devices.list !== null && mine.length === 0 ? (
        <p>
          {words.none} <a href={devicesAddress}>{words.assign}</a>
        </p>
      ) : null}
      {mine.length > 0 ? (
        <table>
          <thead>
            <tr>
              <th scope="col">{words.name}</th>
              <th scope="col">{words.unsent}</th>
              <th scope="col">{words.seen}</th>
            </tr>
          </thead>
          <tbody>
            {mine.map((device) => (
              <tr key={device.id}>
                <th scope="row">
                  {devices.nameOf(device.id)}
                  {device.revoked ? ` (${words.withdrawn})` : ""}
                </th>
                <td>{unsentText(device)}</td>
                <td>
                  {device.lastSeen ? words.since(minutesBetween(device.lastSeen, lead.now())) : words.never}
                  {device.status?.battery != null ? `, ${words.battery(device.status.battery)}` : ""}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
    </section>
  );
}

/** What a tablet said it holds when it was last heard; a tablet that never spoke is not called empty. */
function unsentText({ status }: DeviceInfo): string {
  const words = dayWords.tablets;
  if (status === null) return words.notKnown;
  return status.unsent > 0 ? words.notSent(status.unsent) : words.allSent;
}

function LockedPlan({ id, plan }: { id: string; plan: Plan }) {
  return (
    <section>
      <details>
        <summary>{dayWords.planHeading}</summary>
        <dl class="said">
          {planParts.map((part) => (
            <div key={part}>
              <dt>{planWords.parts[part]}</dt>
              <dd>{summaryOf(part, plan)}</dd>
            </div>
          ))}
        </dl>
        <p>
          <a href={stepAddress(id, "lock")}>{dayWords.allFixed}</a>
        </p>
        <PlanAsFile study={id} plan={plan} />
      </details>
    </section>
  );
}
