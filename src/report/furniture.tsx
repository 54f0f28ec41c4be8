import type { ComponentChildren } from "preact";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";

/** The frame of every page here: the name, a fine line at its end, the sheet. */
export function Frame({ end, children }: { end?: ComponentChildren; children: ComponentChildren }) {
  return (
    <div class="sheet">
      <header class="bar">
        <a class="name" href="./">
          {reader.name}
        </a>
        <span class="end">{end}</span>
      </header>
      <main>{children}</main>
    </div>
  );
}

/** A sentence for whatever went wrong, and a way to try again. */
export function Failure({ thrown, again }: { thrown: unknown; again?: () => void }) {
  return (
    <Frame>
      <h1>{reader.problems.heading}</h1>
      <p role="alert" class="room">
        {sentenceOf(thrown)}
      </p>
      <button type="button" onClick={again ?? (() => window.location.reload())}>
        {reader.problems.again}
      </button>
    </Frame>
  );
}
