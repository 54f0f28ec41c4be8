import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { enrollDevice } from "../device/enrollment.ts";
import type { Identity } from "../device/store.ts";
import type { ProblemData } from "../model/problem.ts";
import { panel as en, type PanelWords } from "../words/en/panel.ts";
import { asStorageProblem } from "./as-problem.ts";
import { type Desk, DeskContext } from "./desk.ts";
import { OnDuty } from "./on-duty.tsx";
import type { AppParts } from "./parts.ts";
import { Enroll } from "./screens/enroll.tsx";
import { Failed } from "./screens/pages.tsx";
import { Session } from "./session.ts";

type Start =
  | { at: "starting" }
  | { at: "failed"; problem: ProblemData }
  | { at: "enroll"; why: "first" | "again" | "before"; identity: Identity | null }
  | { at: "ready" };

/** The tablet: opens its storage, has itself enrolled, then serves one tray after the other. */
export function App({ parts, words = en }: { parts: AppParts; words?: PanelWords }) {
  const [start, setStart] = useState<Start>({ at: "starting" });
  const [tries, setTries] = useState(0);
  const [accept, setAccept] = useState<(() => void) | null>(null);
  const sendNow = useRef(() => {});
  const session = useMemo(
    () => new Session({ ...parts, wordings: Object.keys(words.ballots), onKept: () => sendNow.current() }),
    [parts, words],
  );
  const { store, fetcher } = parts;
  // once for the page, however often the tablet is enrolled again
  useEffect(() => parts.watchForUpdate((take) => setAccept(() => take)), [parts]);

  useEffect(() => {
    let current = true;
    startOf(parts, session).then(
      (found) => current && setStart(found),
      (thrown) => current && setStart({ at: "failed", problem: asStorageProblem(thrown) }),
    );
    return () => {
      current = false;
    };
  }, [parts, session, tries]);

  async function enroll(code: string, name: string): Promise<boolean> {
    const identity = await enrollDevice(store, fetcher, ["panel"], { code, name });
    if (identity) {
      parts.persist();
      setStart({ at: "ready" });
    }
    return identity !== null;
  }
  const enrollAgain = async (): Promise<void> =>
    setStart({ at: "enroll", why: "again", identity: await store.identity() });
  const retry = (): void => {
    setStart({ at: "starting" });
    setTries((count) => count + 1);
  };

  const desk: Desk = {
    words,
    clock: parts.clock,
    standing: undefined,
    worksOffline: parts.worksOffline(),
    mustEnrollAgain: false,
  };
  return (
    <DeskContext.Provider value={desk}>
      {start.at === "starting" ? <p class="starting">{words.starting}</p> : null}
      {start.at === "failed" ? <Failed problem={start.problem} again={retry} /> : null}
      {start.at === "enroll" ? (
        <Enroll
          code={parts.code}
          name={start.identity?.name ?? ""}
          why={start.why}
          enroll={enroll}
          {...(start.identity ? { cancel: () => setStart({ at: "ready" }) } : {})}
        />
      ) : null}
      {start.at === "ready" ? (
        <OnDuty
          parts={parts}
          session={session}
          desk={desk}
          sendNow={sendNow}
          enrollAgain={() => void enrollAgain()}
          accept={accept}
        />
      ) : null}
    </DeskContext.Provider>
  );
}

/** Reads who this tablet is, and puts back the tray that was open. Throws when there is no storage to read. */
async function startOf(parts: AppParts, session: Session): Promise<Start> {
  const identity = await parts.store.identity();
  if (!identity) {
    const before = await parts.wasEnrolled().catch(() => false);
    return { at: "enroll", why: before ? "before" : "first", identity: null };
  }
  await session.resume();
  return { at: "ready" };
}
