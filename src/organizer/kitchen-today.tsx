import * as z from "zod/mini";
import { pullStudies, pullStudy } from "../device/pull.ts";
import type { StudyState } from "../log/fold.ts";
import { Problem } from "../model/problem.ts";
import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { weighWords } from "../words/en/organizer-weigh.ts";
import { type Lead, useLead } from "./app-context.ts";
import { BlankNote } from "./blank-study.tsx";
import { Calls } from "./calls.tsx";
import { progressOf } from "./day.ts";
import { DayStepPage, useDay } from "./day-step.tsx";
import { DayWaves } from "./day-waves.tsx";
import { fetchStudy, readStudies, usePolling, useStudy, watchOf } from "./facts.ts";
import { HaltPart } from "./halt.tsx";
import { Invented } from "./invented.tsx";
import { Page } from "./page.tsx";
import { type Route, stepAddress, studiesAddress, studyAddress } from "./route.ts";
import { SheetsBack } from "./sheets-back.tsx";
import { WeighPortions } from "./weigh-page.tsx";

const words = onDayWords.list;
const listed = "studies of the day";
const listEveryMs = 15_000;
const studyEveryMs = 4_000;

/** Fetches which studies the kitchen may see, and what is new in each. The list is kept: it is known without network too. */
async function fetchToday({ store, fetcher, who }: Lead): Promise<void> {
  const studies = (await pullStudies(fetcher, who.token)).map(({ id }) => id);
  if (JSON.stringify(await store.meta(listed)) !== JSON.stringify(studies)) await store.setMeta(listed, studies);
  for (const id of studies) await pullStudy(store, fetcher, who.token, id);
}

const todays = async ({ store }: Lead): Promise<{ id: string; state: StudyState }[]> => {
  const ids = z.safeParse(z.array(z.string()), await store.meta(listed));
  const known = await readStudies(store);
  return known.filter(({ id, state }) => state.lock && ids.success && ids.data.includes(id));
};

/** What a phone of the kitchen begins with: locked studies, until their key is opened. */
export function KitchenToday() {
  const lead = useLead();
  const fetching = usePolling(lead, () => fetchToday(lead), listEveryMs, [lead.who.token]);
  const studies = useReading(() => todays(lead), watchOf(lead.store), [lead.who.token]);
  if (studies === undefined) return <p class="fine">{organizer.loading}</p>;
  return (
    <Page heading={studies.length === 0 ? words.empty : words.heading} windowTitle={words.heading} wide>
      {fetching.thrown === null ? null : <p class="note">{words.offline}</p>}
      {studies.length === 0 ? <p class="lead-in">{words.emptyText}</p> : null}
      <ul class="doors">
        {studies.map(({ id, state }) => (
          <li key={id}>
            <a href={studyAddress(id)}>{titleOf(state)}</a>
            <p class="fine">{lineOf(state)}</p>
          </li>
        ))}
      </ul>
    </Page>
  );
}

const titleOf = ({ lock }: StudyState): string => lock?.body.plan.title.trim() || organizer.untitled;

function lineOf(state: StudyState): string {
  const { answered, planned } = progressOf(state);
  const waves = state.lock?.body.plan.waves.length ?? 0;
  const stage = dayWords.stage;
  const at = state.close ? stage.closed(state.close.at) : state.lock ? stage.locked(state.lock.at) : "";
  return [words.waves(waves), dayWords.answered(answered, planned), at].join(organizer.status.join);
}

/** One study as the kitchen sees it: its day, or a page of it. */
export function KitchenStudy({ route }: { route: Extract<Route, { page: "study" | "step" | "day-step" }> }) {
  const lead = useLead();
  const { id } = route;
  const state = useStudy(lead.store, id);
  const fetching = usePolling(lead, () => fetchStudy(lead, id), studyEveryMs, [id, lead.who.token]);
  if (!state) return <p class="fine">{organizer.loading}</p>;
  if (isOver(fetching.thrown)) return <Over />;
  if (!state.lock)
    return fetching.at === null && fetching.thrown === null ? <p class="fine">{organizer.loading}</p> : <Over />;
  const { plan } = state.lock.body;
  if (route.page === "day-step") return <DayStepPage {...{ id, plan, state }} step={route.step} of={route.of} />;
  if (route.page === "step") return <WeighPortions {...{ id, state, fetching }} />;
  return <KitchenDayPage id={id} state={state} unreachableSince={fetching.thrown === null ? undefined : fetching.at} />;
}

/** The server has this study no more for the kitchen: its key is open. */
const isOver = (thrown: unknown): boolean => thrown instanceof Problem && thrown.problem.code === "access/not-found";

function Over() {
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <p class="lead-in">{onDayWords.over}</p>
      <p>
        <a href={studiesAddress}>{words.heading}</a>
      </p>
    </Page>
  );
}

type DayProps = { id: string; state: StudyState; unreachableSince: string | null | undefined };

function KitchenDayPage({ id, state, unreachableSince }: DayProps) {
  const day = useDay(state);
  const plan = state.lock?.body.plan;
  const { answered, planned } = progressOf(state);
  const over = state.close !== null;
  if (!plan) return null;
  return (
    <Page heading={titleOf(state)} windowTitle={titleOf(state)} wide>
      <p class="lead-in count" aria-live="polite">
        {dayWords.answered(answered, planned)}
      </p>
      {state.close ? <p class="fine under">{dayWords.stage.closed(state.close.at)}</p> : null}
      {unreachableSince === undefined ? null : <p class="note">{dayWords.unreachable(unreachableSince)}</p>}
      <BlankNote plan={plan} />
      <Invented plan={plan} opens={false} taste={!over} />
      <DayTop id={id} state={state} />
      {state.lock?.body.packet.chew ? (
        <p class="day-actions">
          <a class="button" href={stepAddress(id, "weigh")}>
            {weighWords.toWeigh}
          </a>
        </p>
      ) : null}
      <DayWaves id={id} state={state} plan={plan} day={day} devices={null} />
    </Page>
  );
}

/** What concerns the whole day, on every phone: the stop, calls for somebody, papers with the key. */
export function DayTop({ id, state }: { id: string; state: StudyState }) {
  const day = useDay(state);
  const over = state.close !== null;
  return (
    <>
      <HaltPart id={id} day={day} over={over} />
      {over ? null : <Calls id={id} />}
      {state.reveal ? null : <SheetsBack id={id} day={day} over={false} />}
      {day.labeled && day.limits === "none" && !over ? <p class="fine">{onDayWords.noLimits}</p> : null}
    </>
  );
}
