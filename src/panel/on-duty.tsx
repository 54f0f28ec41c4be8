import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { mustEnrollAgain } from "../device/enrolled.ts";
import { ErrorBoundary } from "../ui/error-boundary.tsx";
import { useReading } from "../ui/use-store.ts";
import type { Clock } from "./clock.ts";
import { type Desk, DeskContext } from "./desk.ts";
import { forgetEmptied, readEmptied } from "./emptied.ts";
import type { Link, LinkParts } from "./link.ts";
import type { AppParts } from "./parts.ts";
import { EmptiedNotice, EnrollAgain, Insecure, UpdateNotice } from "./screens/notices.tsx";
import { Broken, NoStudy } from "./screens/pages.tsx";
import { Rest } from "./screens/rest.tsx";
import type { Session } from "./session.ts";
import type { SessionState } from "./session-base.ts";
import { readStanding } from "./standing.ts";
import { Tool, ToolButtons, useTool } from "./tool.tsx";
import { TrayScreen } from "./tray-screens.tsx";
import { useCover, useReports, useSession } from "./use-session.ts";

type Props = {
  parts: AppParts;
  session: Session;
  desk: Desk;
  /** Set to what sends at once, for the session to call after something was kept. */
  sendNow: RefObject<() => void>;
  enrollAgain: () => void;
  /** Takes the new version of the app that waits; null while none does. */
  accept: (() => Promise<void>) | null;
};

/** An enrolled tablet on duty: at rest, or with a tray in hand, and in touch with its server when there is one. */
export function OnDuty({ parts, session, desk, sendNow, enrollAgain, accept }: Props) {
  const { store, clock } = parts;
  const state = useSession(session);
  const again = useLink(parts, session, sendNow);
  const [afresh, setAfresh] = useState(0);
  const standing = useReading(
    () => readStanding(store),
    (changed) => store.onChange(changed),
    [store],
  );
  useCover(session, state, clock);
  useReports(session);
  const update = (): Promise<boolean> => parts.betweenTrays(async () => accept?.());
  const restart = (): void => setAfresh((count) => count + 1);
  return (
    <DeskContext.Provider value={{ ...desk, standing, worksOffline: parts.worksOffline(), mustEnrollAgain: again }}>
      <ErrorBoundary key={afresh} instead={(thrown) => <Broken thrown={thrown} again={restart} />}>
        {state.step.at === "rest" ? (
          <AtRest
            parts={parts}
            session={session}
            state={state}
            update={accept ? update : null}
            enrollAgain={again ? enrollAgain : null}
          />
        ) : (
          <TrayScreen session={session} state={state} />
        )}
      </ErrorBoundary>
      <Palette palette={state.packet?.palette ?? null} />
    </DeskContext.Provider>
  );
}

type RestProps = {
  parts: AppParts;
  session: Session;
  state: SessionState;
  update: (() => Promise<boolean>) | null;
  enrollAgain: (() => void) | null;
};

function AtRest({ parts, session, state, update, enrollAgain }: RestProps) {
  const { store } = parts;
  const [tool, openTool] = useTool(parts.loadTools);
  const known = useReading(
    async () => ({ packet: await store.packet(), emptied: await readEmptied(store) }),
    (changed) => store.onChange(changed),
    [store],
  );
  if (!known) return null;
  const { packet, emptied } = known;
  if (tool) return <Tool tool={tool} parts={parts} packet={packet} leave={() => openTool(null)} />;
  const tools = <ToolButtons open={openTool} />;
  const notices = (
    <>
      {emptied ? <EmptiedNotice emptied={emptied} seen={() => void forgetEmptied(store)} /> : null}
      {enrollAgain ? <EnrollAgain go={enrollAgain} /> : null}
      {update ? <UpdateNotice update={update} /> : null}
      <Insecure />
    </>
  );
  return (
    <>
      {packet ? (
        <Rest
          problem={state.problem}
          open={(typed) => void session.open(typed)}
          mend={() => session.mend()}
          closed={emptied !== null}
          notices={notices}
          tools={tools}
        />
      ) : (
        <NoStudy notices={notices} tools={tools} />
      )}
      <Palette palette={packet?.palette ?? null} />
    </>
  );
}

/** Day or dim, as the plan locked it; the same on every tablet, whatever the system prefers. */
function Palette({ palette }: { palette: "day" | "dim" | null }) {
  useLayoutEffect(() => {
    if (!palette) return;
    document.documentElement.dataset.palette = palette;
    // the browser's own bars must not shine beside a dim screen
    const ground = getComputedStyle(document.documentElement).getPropertyValue("--ground").trim();
    if (ground) document.querySelector('meta[name="theme-color"]')?.setAttribute("content", ground);
  }, [palette]);
  return null;
}

/** Stays in touch while mounted. Returns whether the server says that this tablet must be enrolled again. */
function useLink(parts: AppParts, session: Session, sendNow: RefObject<() => void>): boolean {
  const [again, setAgain] = useState(false);
  useEffect(() => {
    let link: Link | null = null;
    const linkParts: LinkParts = {
      ...parts,
      mayTakePacket: () => session.state.step.at === "rest" && !session.state.busy,
      onOutcome: (problem) => {
        if (problem === null || problem.code.startsWith("access/")) setAgain(mustEnrollAgain(problem));
      },
    };
    const stopLoading = load(parts.clock, (startLink) => {
      link = startLink(linkParts);
      sendNow.current = link.sendNow;
    });
    // a packet that came while a tray was in hand is asked for again once it is put down
    let wasAtRest = true;
    const stop = session.onChange(() => {
      const isAtRest = session.state.step.at === "rest";
      if (isAtRest && !wasAtRest) link?.lookNow();
      wasAtRest = isAtRest;
    });
    return () => {
      stop();
      stopLoading();
      link?.stop();
    };
  }, [parts, session]);
  return again;
}

/** Loads what talks to the server, which the first screen does not wait for; tries again while it cannot be had. */
function load(clock: Clock, loaded: (startLink: (parts: LinkParts) => Link) => void): () => void {
  let stopped = false;
  let cancel = () => {};
  const attempt = (): void => {
    import("./link.ts").then(
      ({ startLink }) => {
        if (!stopped) loaded(startLink);
      },
      () => {
        if (!stopped) cancel = clock.after(15_000, attempt);
      },
    );
  };
  attempt();
  return () => {
    stopped = true;
    cancel();
  };
}
