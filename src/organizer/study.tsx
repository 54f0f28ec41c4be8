import type { StudyState } from "../log/fold.ts";
import { organizer } from "../words/en/organizer.ts";
import { Admit } from "./admit.tsx";
import { useLead } from "./app-context.ts";
import { CloseStudy } from "./close.tsx";
import { Day } from "./day-page.tsx";
import { DayStepPage } from "./day-step.tsx";
import { type Fetching, fetchStudy, usePolling, useStudy } from "./facts.ts";
import { LockPage } from "./lock-page.tsx";
import { LookPage } from "./look-page.tsx";
import { MassesPage } from "./masses-page.tsx";
import { OpenKey } from "./open-key.tsx";
import { Page } from "./page.tsx";
import { Papers } from "./papers.tsx";
import { PlanPage } from "./plan-page.tsx";
import { RehearsePage } from "./rehearse-page.tsx";
import { type Route, studiesAddress } from "./route.ts";
import { Settle } from "./settle.tsx";
import { ShoppingPage } from "./shopping-page.tsx";
import { Spare } from "./spare.tsx";
import { planOf } from "./study-stage.ts";
import { VoidBallot } from "./void-ballot.tsx";
import { WeighPortions } from "./weigh-page.tsx";
import { LockedPage } from "./what-is-fixed.tsx";

/** While people taste, a look every few seconds; drafts change on one device at a time. */
const everyMs = 4_000;

/** What a page of one study is given. */
export type StudyProps = { id: string; state: StudyState; fetching: Fetching };

/** One study: its plan while it is a draft, its day once it is locked, or a step of either. */
export function Study({ route }: { route: Extract<Route, { page: "study" | "step" | "day-step" | "papers" }> }) {
  const lead = useLead();
  const state = useStudy(lead.store, route.id);
  const fetching = usePolling(lead, () => fetchStudy(lead, route.id), everyMs, [route.id, lead.who.token]);
  if (!state) return <p class="fine">{organizer.loading}</p>;
  if (!planOf(state)) return <Unknown />;
  const props = { id: route.id, state, fetching };
  if (route.page === "step" && route.step === "rehearse") return <RehearsePage {...props} />;
  if (!state.lock) {
    if (route.page === "step" && route.step === "lock") return <LockPage {...props} />;
    if (route.page === "step" && route.step === "shopping") return <ShoppingPage {...props} />;
    return <PlanPage {...props} field={route.page === "study" ? (route.field ?? null) : null} />;
  }
  if (route.page === "day-step") {
    const { plan } = state.lock.body;
    return <DayStepPage id={route.id} plan={plan} state={state} step={route.step} of={route.of} />;
  }
  if (route.page === "papers") return <Papers {...props} lock={state.lock} paper={route.paper} />;
  if (route.page === "study") return <Day {...props} />;
  switch (route.step) {
    case "lock":
      return <LockedPage id={route.id} plan={state.lock.body.plan} />;
    case "rehearse":
      return <Day {...props} />;
    case "shopping":
      return <Papers {...props} lock={state.lock} paper="prep-list" />;
    case "void":
      return <VoidBallot {...props} />;
    case "spare":
      return <Spare {...props} />;
    case "settle":
      return <Settle {...props} />;
    case "admit":
      return <Admit {...props} />;
    case "look":
      return <LookPage {...props} />;
    case "weigh":
      return <WeighPortions {...props} />;
    case "masses":
      return <MassesPage {...props} />;
    case "close":
      return <CloseStudy {...props} />;
    case "open":
      return <OpenKey {...props} />;
  }
}

function Unknown() {
  return (
    <Page heading={organizer.errors.unknownPage} windowTitle={organizer.errors.unknownPage}>
      <p class="lead-in">{organizer.errors.noStudy}</p>
      <p>
        <a href={studiesAddress}>{organizer.errors.allStudies}</a>
      </p>
    </Page>
  );
}
