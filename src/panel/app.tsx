import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Identity } from "../device/event-store.ts";
import { type ProblemData, problem } from "../model/problem.ts";
import { panel as en, type PanelWords, wordings } from "../words/en/panel.ts";
import { asStorageProblem } from "./as-problem.ts";
import { type Desk, DeskContext } from "./desk.ts";
import type * as enrollRoom from "./enroll-room.tsx";
import { OnDuty } from "./on-duty.tsx";
import type { AppParts } from "./parts.ts";
import { Failed } from "./screens/pages.tsx";
import { Session } from "./session.ts";

type Start =
  | { at: "starting" }
  | { at: "failed"; problem: ProblemData }
  | { at: "enroll"; why: "first" | "again" | "before"; identity: Identity | null; room: typeof enrollRoom }
  | { at: "ready" };

/** The tablet: opens its storage, has itself enrolled, then serves one tray after the other. */
export function App({ parts, words = en }: { parts: AppParts; words?: PanelWords }) {
  const [start, setStart] = useState<Start>({ at: "starting" });
  const [tries, setTries] = useState(0);
  const [accept, setAccept] = useState<(() => Promise<void>) | null>(null);
  const sendNow = useRef(() => {});
  const session = useMemo(
    () => new Session({ ...parts, wordings: wordings, onKept: () => sendNow.current() }),
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

  async function enroll(room: typeof enrollRoom, code: string, name: string): Promise<boolean> {
    const identity = await room.enrollDevice(store, fetcher, ["panel"], { code, name });
    if (identity) {
      parts.persist();
      setStart({ at: "ready" });
    }
    return identity !== null;
  }
  const enrollAgain = (): Promise<void> => enrollAt("again", store).then(setStart, (thrown) => session.report(thrown));
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
        <start.room.Enroll
          code={parts.code}
          name={start.identity?.name ?? ""}
          why={start.why}
          enroll={(code, name) => enroll(start.room, code, name)}
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
    return enrollAt(before ? "before" : "first", parts.store);
  }
  await session.resume();
  return { at: "ready" };
}

async function enrollAt(why: "first" | "again" | "before", store: AppParts["store"]): Promise<Start> {
  const identity = await store.identity();
  const room = await import("./enroll-room.tsx").catch(() => {
    throw problem("server/unreachable");
  });
  return { at: "enroll", why, identity, room };
}
