import type { Plan } from "../model/plan.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { useLead } from "./app-context.ts";
import { copyStudy } from "./begin-study.ts";
import { lockedFacts } from "./locked-facts.ts";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { studyAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";

const words = lockWords.lock;

/** All that a lock fixes, as it stands in the plan. */
export function WhatIsFixed({ plan }: { plan: Plan }) {
  return (
    <dl class="said">
      {lockedFacts(plan).map(({ term, lines }) => (
        <div key={term}>
          <dt>{term}</dt>
          {lines.map((line) => (
            <dd key={line}>{line}</dd>
          ))}
        </div>
      ))}
    </dl>
  );
}

/** What can still happen after the lock: events, each written beside the plan and never into it. */
export function WhatCanHappen({ plan }: { plan: Plan }) {
  const { still } = words;
  return (
    <section>
      <h2>{still.heading}</h2>
      <p>{still.lead}</p>
      <ul class="plain">
        {still.events(plan.stopping.rule !== "fixed").map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p>{still.changed(dayWords.actions.copy)}</p>
    </section>
  );
}

/** The same of a study that is locked: what is fixed, what can still happen, and the way to a changed plan. */
export function LockedPage({ id, plan }: Pick<StudyProps, "id"> & { plan: Plan }) {
  const lead = useLead();
  const doing = useDoing();
  return (
    <Page heading={words.lockedHeading} windowTitle={words.lockedHeading}>
      <p class="lead-in">{plan.title.trim()}</p>
      <p class="fine under">
        <a href={studyAddress(id)}>{words.backToDay}</a>
      </p>
      <section>
        <WhatIsFixed plan={plan} />
      </section>
      <WhatCanHappen plan={plan} />
      <p>
        <button type="button" onClick={() => doing.run(() => copyStudy(lead, id, plan))}>
          {dayWords.actions.copy}
        </button>
      </p>
      <ProblemNote thrown={doing.thrown} />
    </Page>
  );
}
