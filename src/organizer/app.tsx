import { useCallback, useEffect, useState } from "preact/hooks";
import type { EventStore, Identity } from "../device/event-store.ts";
import type { Role } from "../model/http.ts";
import { ErrorBoundary } from "../ui/error-boundary.tsx";
import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { type Fetch, type Lead, LeadContext, useLead } from "./app-context.ts";
import { Bar } from "./bar.tsx";
import { ClaimPage } from "./claim-page.tsx";
import { Claims } from "./claims.tsx";
import type { KeepState } from "./draft-keeper.ts";
import { watchOf } from "./facts.ts";
import { keyMemory } from "./key-memory.ts";
import { KitchenPage } from "./kitchen-page.tsx";
import { KitchenStudy, KitchenToday } from "./kitchen-today.tsx";
import { Page } from "./page.tsx";
import { papersAddress, type Route, readRoute, studiesAddress } from "./route.ts";
import { Setup } from "./setup.tsx";
import { neverSent, type Sent } from "./status.ts";
import { Studies } from "./studies.tsx";
import { Study } from "./study.tsx";
import { Tablets } from "./tablets.tsx";

/** Whose app this is: leads have all of it, the kitchen a few pages of its own. */
const staff: readonly Role[] = ["lead", "kitchen"];

/** How often it is looked whether the time of an opened key is over. */
const lookEveryMs = 10_000;

export type AppProps = {
  store: EventStore;
  fetcher: Fetch;
  now: () => string;
  sendNow: () => Promise<void>;
  /** Tells of every change of how sending goes; returns the way to stop. */
  onSent: (listener: (sent: Sent) => void) => () => void;
  /** Tells when a new version waits; `accept` loads it. */
  onUpdate: (listener: (accept: () => void) => void) => void;
};

/** The app of leads and of the kitchen: who this browser is, where it stands, and what went wrong. */
export function App(props: AppProps) {
  const { store, fetcher, now } = props;
  const route = useRoute();
  const who = useReading(() => store.identity(), watchOf(store), []);
  const [accept, setAccept] = useState<(() => void) | null>(null);
  useEffect(() => props.onUpdate((take) => setAccept(() => take)), []);
  useEffect(() => {
    const place = route.page === "papers" ? { study: route.id, paper: route.paper } : null;
    const study = keyMemory.held(now())?.study ?? null;
    const then = keyMemory.goTo(place);
    // what was opened in this page must not outlive the papers: strings cannot be wiped, a page can
    if (then === "drop") window.location.reload();
    // nobody leaves while the passphrase is still to be written down
    if (then === "back" && study !== null) window.location.hash = papersAddress(study);
  }, [route]);
  useEffect(() => watchTheKey(now), []);
  const enrolled = (): void => {
    toStudies();
    void props.sendNow();
  };
  if (who === undefined) return null;
  return (
    <div class="sheet">
      <ErrorBoundary instead={(thrown) => <Broken thrown={thrown} />}>
        {who === null || !staff.includes(who.role) ? (
          <Setup
            store={store}
            fetcher={fetcher}
            code={route.page === "setup" ? route.code : ""}
            before={null}
            onEnrolled={enrolled}
          />
        ) : (
          <Enrolled {...props} who={who} route={route} onEnrolled={enrolled} />
        )}
      </ErrorBoundary>
      {accept ? <UpdateLine accept={accept} /> : null}
    </div>
  );
}

/** Loads the page anew once the time of an opened key is over, whether or not anybody is there. */
function watchTheKey(now: () => string): () => void {
  let held = false;
  const timer = setInterval(() => {
    const still = keyMemory.held(now()) !== null;
    if (held && !still) window.location.reload();
    held = still;
  }, lookEveryMs);
  return () => clearInterval(timer);
}

function Enrolled(props: AppProps & { who: Identity; route: Route; onEnrolled: () => void }) {
  const { store, fetcher, now, sendNow, onSent, who, route, onEnrolled } = props;
  const [sent, setSent] = useState<Sent>(neverSent);
  const [keep, setKeep] = useState<KeepState | null>(null);
  useEffect(() => onSent(setSent), []);
  const lead: Lead = { store, fetcher, who, now, sendNow, sent, keep, setKeep: useCallback(setKeep, []) };
  return (
    <LeadContext.Provider value={lead}>
      <Bar route={route} />
      <ErrorBoundary key={JSON.stringify(route)} instead={(thrown) => <Broken thrown={thrown} />}>
        {who.role === "kitchen" ? (
          <KitchenBody route={route} onEnrolled={onEnrolled} />
        ) : (
          <Body route={route} onEnrolled={onEnrolled} />
        )}
      </ErrorBoundary>
    </LeadContext.Provider>
  );
}

function Body({ route, onEnrolled }: { route: Route; onEnrolled: () => void }) {
  switch (route.page) {
    case "studies":
      return <Studies />;
    case "devices":
      return <Tablets />;
    case "claims":
      return <Claims />;
    case "claim":
      return <ClaimPage key={route.id} id={route.id} />;
    case "kitchen":
      return <KitchenPage />;
    case "study":
    case "step":
    case "day-step":
    case "papers":
      return <Study key={keyOf(route)} route={route} />;
    case "setup":
      return <Again code={route.code} onEnrolled={onEnrolled} />;
    case "again":
      return <Again code="" onEnrolled={onEnrolled} />;
    case "unknown":
      return <Notice heading={organizer.errors.unknownPage} text={organizer.errors.unknownText} />;
  }
}

/** What a phone of the kitchen can open: the list and the day of locked studies. Everything else is the lead's. */
function KitchenBody({ route, onEnrolled }: { route: Route; onEnrolled: () => void }) {
  switch (route.page) {
    case "studies":
      return <KitchenToday />;
    case "study":
    case "day-step":
      return <KitchenStudy key={keyOf(route)} route={route} />;
    case "step":
      if (route.step === "weigh") return <KitchenStudy key={keyOf(route)} route={route} />;
      return <LeadsPage />;
    case "setup":
      return <Again code={route.code} onEnrolled={onEnrolled} />;
    case "again":
      return <Again code="" onEnrolled={onEnrolled} />;
    default:
      return <LeadsPage />;
  }
}

const LeadsPage = () => <Notice heading={organizer.errors.unknownPage} text={onDayWords.leadsPage} />;

type OfStudy = Extract<Route, { id: string; page: "study" | "step" | "day-step" | "papers" }>;

/** Pages of one study that keep nothing of each other. */
const keyOf = (route: OfStudy): string => {
  if (route.page === "day-step") return `${route.id} ${route.step} ${route.of}`;
  return `${route.id} ${route.page === "step" ? route.step : route.page}`;
};

/**
 * Setting up again is for a browser that the server does not know. One that it knows would lose the right to send what
 * it wrote under its present name.
 */
function Again({ code, onEnrolled }: { code: string; onEnrolled: () => void }) {
  const { store, fetcher, who, sent } = useLead();
  // right after loading nothing has been heard from the server yet
  if (sent.at === null && !sent.failed) return <p class="fine">{organizer.loading}</p>;
  if (!sent.unknown) {
    const { already, codeUnused } = organizer.setup;
    return <Notice heading={organizer.bar.studies} text={code === "" ? already : `${already} ${codeUnused}`} />;
  }
  return <Setup store={store} fetcher={fetcher} code={code} before={who} onEnrolled={onEnrolled} />;
}

function Notice({ heading, text }: { heading: string; text: string }) {
  return (
    <Page heading={heading} windowTitle={heading}>
      <p class="lead-in">{text}</p>
      <p>
        <a href={studiesAddress}>{organizer.errors.allStudies}</a>
      </p>
    </Page>
  );
}

function Broken({ thrown }: { thrown: unknown }) {
  const words = organizer.errors;
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <p role="alert">{sentenceOf(thrown)}</p>
      <p>{words.kept}</p>
      <p class="after">
        <button type="button" onClick={() => window.location.reload()}>
          {words.again}
        </button>
      </p>
    </Page>
  );
}

function UpdateLine({ accept }: { accept: () => void }) {
  return (
    <p class="update no-print" role="status">
      {organizer.update.ready}{" "}
      <button type="button" class="quiet" onClick={accept}>
        {organizer.update.accept}
      </button>
    </p>
  );
}

const toStudies = (): void => {
  window.location.hash = studiesAddress;
};

/** The page the address names. A one-time code is taken out of the address at once, before anything else can see it. */
function useRoute(): Route {
  const [route, setRoute] = useState<Route>(() => takeRoute());
  useEffect(() => {
    const look = (): void => setRoute(takeRoute());
    window.addEventListener("hashchange", look);
    return () => window.removeEventListener("hashchange", look);
  }, []);
  return route;
}

function takeRoute(): Route {
  const route = readRoute(window.location.hash);
  if (route.page === "setup") window.history.replaceState(null, "", window.location.pathname);
  return route;
}
