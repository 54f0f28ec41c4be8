import { useState } from "preact/hooks";
import { openParts } from "../design/readiness.ts";
import { knownFacts } from "../device/pull.ts";
import { foldStudy } from "../log/fold.ts";
import type { OpenPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { randomBytes } from "../seal/random.ts";
import { appVersion } from "../ui/app-version.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { versionWords } from "../words/en/organizer-versions.ts";
import { openPartSentence } from "../words/en/planning.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { appendEvent, type Lead, useLead } from "./app-context.ts";
import { BlankNote } from "./blank-study.tsx";
import { fetchStudy } from "./facts.ts";
import { keyMemory } from "./key-memory.ts";
import { lockPlan, requireSecure } from "./lock.ts";
import { Page } from "./page.tsx";
import { fieldOf, keyOf, pagePartOf } from "./plan-fields.ts";
import { ProblemNote } from "./problem-note.tsx";
import { fieldAddress, papersAddress, studyAddress } from "./route.ts";
import type { StudyProps } from "./study.tsx";
import { SecondLook } from "./time-at-table.tsx";
import { WhatCanHappen, WhatIsFixed } from "./what-is-fixed.tsx";
import { WordGate } from "./word-gate.tsx";

const words = lockWords.lock;

/** Locking: what is still open, or what will never change again and the word to type. */
export function LockPage({ id, state }: StudyProps) {
  const lead = useLead();
  const [busy, setBusy] = useState(false);
  const [thrown, setThrown] = useState<unknown>(() => insecure());
  const plan = state.draft?.plan;
  if (!plan) throw new Error("nothing to lock");
  const open = openParts(plan);

  async function lock(study: Plan): Promise<void> {
    setBusy(true);
    setThrown(null);
    try {
      await lockNow(lead, id, study);
      window.location.hash = papersAddress(id);
    } catch (failure) {
      setThrown(failure);
      setBusy(false);
    }
  }

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <p class="lead-in">{plan.title.trim() || organizer.untitled}</p>
      <p class="fine under">
        <a href={studyAddress(id)}>{words.back}</a>
      </p>
      <ProblemNote thrown={thrown} />
      {state.otherDrafts.length > 0 ? (
        <p class="note">
          {versionWords.lock} <a href={studyAddress(id)}>{versionWords.look}</a>
        </p>
      ) : open.length > 0 ? (
        <OpenPoints id={id} open={open} />
      ) : (
        <>
          <BlankNote plan={plan} />
          <WhatLockingFixes plan={plan} />
          <section class="heavy">
            <p class="fine">{words.facts(plan.people, plan.spares)}</p>
            <WordGate
              word={words.word}
              action={words.action}
              working={words.working}
              busy={busy}
              hindrance={window.isSecureContext ? null : sentenceOf(thrown)}
              go={() => void lock(plan)}
            />
          </section>
        </>
      )}
    </Page>
  );
}

/** What the plan still lacks, each a way to its field. */
function OpenPoints({ id, open }: { id: string; open: OpenPart[] }) {
  return (
    <section>
      <h2>{words.openHeading}</h2>
      <p>{words.open(open.length)}</p>
      <ul class="open">
        {open.map((each) => (
          <li key={keyOf(each)}>
            <a href={fieldAddress(id, fieldOf(each))}>
              {planWords.parts[pagePartOf(each)]}: {openPartSentence(each)}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function WhatLockingFixes({ plan }: { plan: Plan }) {
  return (
    <>
      <section>
        <p>{words.fixes}</p>
        <ul class="plain">
          {words.fixed.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <p>{words.never}</p>
      </section>
      <section>
        <h2>{words.allHeading}</h2>
        <WhatIsFixed plan={plan} />
      </section>
      <WhatCanHappen plan={plan} />
      <SecondLook plan={plan} />
      <section>
        <p>{words.key}</p>
        <p class="stop">{words.lost}</p>
        <p>{words.crash(dayWords.actions.copy)}</p>
      </section>
    </>
  );
}

/**
 * Locks: looks first whether another device has, draws and seals, writes the event, and only then holds the key in
 * this page for the papers. Throws the Problem; nothing was locked then.
 */
async function lockNow(lead: Lead, id: string, plan: Plan): Promise<void> {
  requireSecure({ isSecureContext: window.isSecureContext, origin: window.location.origin });
  const stream = { kind: "study" as const, id };
  await fetchStudy(lead, id).catch(() => undefined); // without network the lock is this device's to make
  const { lock, otherDrafts } = foldStudy(await knownFacts(lead.store, stream));
  if (lock) throw problem("lock/already-locked");
  // a plan that two people wrote at once is locked by nobody's choice
  if (otherDrafts.length > 0) throw problem("lock/several-versions");
  const { body, opened, passphrase } = await lockPlan(plan, id, appVersion, randomBytes);
  const fact = await appendEvent(lead, { stream, kind: "study-locked", body, mark: `lock ${id}` });
  // another tab was faster: its key is the one that counts
  if (fact.kind !== "study-locked" || fact.body.sealed.commitment !== body.sealed.commitment) {
    throw problem("lock/already-locked");
  }
  keyMemory.hold({ study: id, opened, passphrase, fresh: true, paper: null }, lead.now());
}

function insecure(): unknown {
  try {
    requireSecure({ isSecureContext: window.isSecureContext, origin: window.location.origin });
    return null;
  } catch (thrown) {
    return thrown;
  }
}
