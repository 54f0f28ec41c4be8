import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { organizer } from "../words/en/organizer.ts";

/** The heading of the page, of which there is one: where the focus goes when what had it is gone. */
export const headingId = "page-heading";

type Props = {
  /** Heading of the page, and of the window unless `windowTitle` says otherwise. */
  heading: ComponentChildren;
  windowTitle: string;
  /** Notes for the margin column. */
  margin?: ComponentChildren;
  /** As wide as the sheet allows; over the margin column too where there are no notes. */
  wide?: boolean;
  children: ComponentChildren;
};

/** A page: its heading takes the focus when it opens, so that keyboards and readers start there. */
export function Page({ heading, windowTitle, margin, wide = false, children }: Props) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    title.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, []);
  useEffect(() => {
    document.title = organizer.documentTitle(windowTitle);
  }, [windowTitle]);
  return (
    <>
      <main class={wide ? (margin ? "wide" : "wide full") : undefined}>
        <h1 ref={title} id={headingId} tabIndex={-1}>
          {heading}
        </h1>
        {children}
      </main>
      {margin ? (
        <aside class="margin" aria-label={organizer.notes}>
          {margin}
        </aside>
      ) : null}
    </>
  );
}
