import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { EventStore, Identity } from "../device/event-store.ts";
import { reader } from "../words/en/reader.ts";
import { type Compute, computeBeside } from "./computing.ts";
import { EnrollForm } from "./enroll-form.tsx";
import { Failure, Frame } from "./furniture.tsx";
import { type Fetch, isNotEnrolled, type Listed, type Loaded, loadList, loadStudy } from "./load.ts";
import { fetchRemarks } from "./remarks.ts";
import { ResultPage } from "./result-page.tsx";
import { StudyList } from "./study-list.tsx";
import { Waiting } from "./waiting.tsx";

type Props = {
  openStore: () => Promise<EventStore>;
  fetcher: Fetch;
  now: () => string;
  app: string;
  /** Id of the study to show; null for the list. */
  study: string | null;
  /** A one-time code that came with the address; empty when none did. */
  code: string;
  forgetCode: () => void;
};

type Step =
  | { at: "loading"; computing: boolean }
  | { at: "stopped" }
  | { at: "failed"; thrown: unknown; enrollLead: boolean }
  | { at: "enrolling"; store: EventStore }
  | { at: "list"; list: Listed[]; lead: boolean }
  | { at: "study"; identity: Identity; loaded: Loaded };

/** The reader's page: enrolls a device that is not known yet, then shows the opened studies or one of them. */
export function App({ openStore, fetcher, now, app, study, code, forgetCode }: Props) {
  const [step, setStep] = useState<Step>({ at: "loading", computing: false });
  const stop = useRef(new AbortController());

  const load = useCallback(async (): Promise<void> => {
    setStep({ at: "loading", computing: false });
    stop.current = new AbortController();
    const { signal } = stop.current;
    const compute: Compute = (job) => {
      setStep({ at: "loading", computing: true });
      return computeBeside(job, { signal });
    };
    try {
      setStep(await stepFor(await openStore(), fetcher, study, app, compute));
    } catch (thrown) {
      setStep(signal.aborted ? { at: "stopped" } : { at: "failed", thrown, enrollLead: isNotEnrolled(thrown) });
    }
  }, [openStore, fetcher, study, app]);
  useEffect(() => void load(), [load]);

  const enrolled = (): void => {
    forgetCode();
    void load();
  };

  switch (step.at) {
    case "loading":
      return (
        <Frame>
          <p class="fine">{reader.loading}</p>
          {step.computing && <Waiting text={reader.large.computing} onStop={() => stop.current.abort()} />}
        </Frame>
      );
    case "stopped":
      return (
        <Frame end={<a href="./">{reader.list.all}</a>}>
          <p role="status">{reader.large.stopped}</p>
          <button type="button" onClick={() => void load()}>
            {reader.large.again}
          </button>
        </Frame>
      );
    case "failed":
      return <Failure thrown={step.thrown} again={() => void load()} enrollLead={step.enrollLead} />;
    case "enrolling":
      return <EnrollForm store={step.store} fetcher={fetcher} code={code} onDone={enrolled} />;
    case "list":
      return <StudyList list={step.list} lead={step.lead} />;
    case "study":
      return step.loaded.at === "opened" ? (
        <ResultPage
          study={step.loaded.study}
          lead={step.identity.role === "lead"}
          app={app}
          now={now}
          fetchRemarks={() => fetchRemarks(fetcher, step.identity.token, study ?? "")}
        />
      ) : (
        <Sealed at={step.loaded.at} lead={step.identity.role === "lead"} again={() => void load()} />
      );
  }
}

async function stepFor(
  store: EventStore,
  fetcher: Fetch,
  study: string | null,
  app: string,
  compute: Compute,
): Promise<Step> {
  const identity = await store.identity();
  if (!identity) return { at: "enrolling", store };
  try {
    if (study === null) {
      return { at: "list", list: await loadList(store, fetcher, identity.token), lead: identity.role === "lead" };
    }
    return { at: "study", identity, loaded: await loadStudy(store, fetcher, identity.token, study, app, compute) };
  } catch (thrown) {
    // a reader who was withdrawn may come back with a new code; a lead's device does that on the lead's own page
    if (isNotEnrolled(thrown) && identity.role === "reader") return { at: "enrolling", store };
    throw thrown;
  }
}

/** A study that nobody may see numbers of. */
function Sealed({ at, lead, again }: { at: "sealed" | "unknown"; lead: boolean; again: () => void }) {
  const { sealed } = reader;
  return (
    <Frame end={<a href="./">{reader.list.all}</a>} lead={lead}>
      <h1>{at === "sealed" ? sealed.heading : sealed.unknown}</h1>
      <p class="room">{at === "sealed" ? sealed.text : sealed.unknownText}</p>
      <button type="button" onClick={again}>
        {sealed.again}
      </button>
    </Frame>
  );
}
