import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { ProblemData } from "../model/problem.ts";
import { trayLabel } from "../model/tray.ts";
import { deviceProblemSentence } from "../words/device-problem-sentence.ts";
import { useDesk } from "./desk.ts";
import { StatusLine } from "./status-line.tsx";

type Props = {
  title: ComponentChildren;
  /** The tray in hand, named in the upper corner. */
  tray?: number;
  /** The code of the sample at hand, named beside it. */
  sample?: string;
  /** Where in the tray this is. */
  place?: string;
  /** A quiet way out beside the tray's name. */
  aside?: ComponentChildren;
  stop?: () => void;
  problem?: ProblemData | null;
  /** Why a press did nothing. */
  hint?: string | null;
  /** Lower left and lower right: always the same two places for the actions. */
  left?: ComponentChildren;
  right?: ComponentChildren;
  children?: ComponentChildren;
};

/** What a word of the question means here, one touch away. */
export function Meaning({ of, children }: { of: string; children: ComponentChildren }) {
  return (
    <details class="meaning">
      <summary>{of}</summary>
      <p>{children}</p>
    </details>
  );
}

/** The sheet that every screen of the tablet is set on. The focus moves to its heading when it appears. */
export function Frame({ title, tray, sample, place, aside, stop, problem, hint, left, right, children }: Props) {
  const { words } = useDesk();
  const heading = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => {
    heading.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, []);
  return (
    <div class="page">
      {tray === undefined ? null : (
        <header>
          <p>{words.tray(trayLabel(tray), sample)}</p>
          {place === undefined ? null : <p>{place}</p>}
          {aside}
          {stop ? (
            <button type="button" class="stop-now" onClick={stop}>
              {words.stopNow}
            </button>
          ) : null}
        </header>
      )}
      <main>
        <h1 id="title" ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {children}
      </main>
      <div class="says">
        {problem ? (
          <p role="alert" class="stop">
            {deviceProblemSentence(problem)}
          </p>
        ) : null}
        <p role="status">{hint}</p>
      </div>
      <footer>
        {left || right ? (
          <div class="actions">
            <div>{left}</div>
            <div>{right}</div>
          </div>
        ) : null}
        <StatusLine />
      </footer>
    </div>
  );
}
