import type { ComponentChildren } from "preact";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";

type FrameProps = {
  end?: ComponentChildren;
  /** A lead came from pages of their own and finds the way back. */
  lead?: boolean;
  children: ComponentChildren;
};

/** The frame of every page here: the name, for a lead the way back, a fine line at its end, the sheet. */
export function Frame({ end, lead = false, children }: FrameProps) {
  return (
    <div class="sheet">
      <header class="bar">
        <a class="name" href="./">
          {reader.name}
        </a>
        {lead && (
          <a class="screen-only" href={reader.organizer}>
            {reader.list.toLead}
          </a>
        )}
        <span class="end">{end}</span>
      </header>
      <main>{children}</main>
    </div>
  );
}

type FailureProps = {
  thrown: unknown;
  again?: () => void;
  /** This browser is a lead's, and its enrollment is gone: the lead's own pages enroll it again. */
  enrollLead?: boolean;
};

/** A sentence for whatever went wrong, and a way to try again. */
export function Failure({ thrown, again, enrollLead = false }: FailureProps) {
  return (
    <Frame>
      <h1>{reader.problems.heading}</h1>
      <p role="alert" class="room">
        {sentenceOf(thrown)}
      </p>
      <p class="buttons">
        {enrollLead && (
          <a class="button next" href={reader.organizerAgain}>
            {reader.problems.enrollLead}
          </a>
        )}
        <button type="button" onClick={again ?? (() => window.location.reload())}>
          {reader.problems.again}
        </button>
      </p>
    </Frame>
  );
}
