import { useState } from "preact/hooks";
import type { StudyState } from "../log/fold.ts";
import type { NextLook } from "../log/looks.ts";
import { lookWords as words } from "../words/en/organizer-look.ts";
import { useLead } from "./app-context.ts";
import { Invented } from "./invented.tsx";
import { lookOf, takeLook } from "./look.ts";
import { type Opener, OpenerFields } from "./open-key.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { stepAddress } from "./route.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { useDevices } from "./use-devices.ts";
import { WordGate } from "./word-gate.tsx";

/** A look of the stopping rule: how many answers there are, and in the end one of two words. Never a count of right ones. */
export function LookPage({ id, state }: StudyProps) {
  const place = lookOf(state);
  const planned = state.lock?.body.plan.people ?? 0;
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      {place === null ? (
        <p class="lead-in">{state.close ? words.closed : words.notHere}</p>
      ) : (
        <>
          <p class="lead-in">{words.here(place.answered, planned)}</p>
          <LastSaid id={id} state={state} next={place.next} />
          <Next id={id} state={state} next={place.next} />
        </>
      )}
      <Before state={state} />
    </Page>
  );
}

/** What the last look said, as the log has it; nothing once the next one is at hand. */
function LastSaid({ id, state, next }: NextProps) {
  const said = state.looks.at(-1)?.done?.body.said;
  return said && next.what !== "due" ? <Said id={id} said={said} /> : null;
}

type NextProps = { id: string; state: StudyState; next: NextLook };

function Next({ id, state, next }: NextProps) {
  const lead = useLead();
  const devices = useDevices();
  switch (next.what) {
    case "none":
      return <p>{words.none}</p>;
    case "later":
      return <p>{words.later(next.look, next.from)}</p>;
    case "stopped":
      return null;
    case "due":
      return <Form id={id} state={state} what={words.due(next.look)} />;
    case "unfinished": {
      const { device, body } = next.look.begun;
      const mine = [lead.who.device, ...lead.who.formerly].includes(device);
      if (!mine) return <p class="note">{words.elsewhere(body.look, devices.nameOf(device))}</p>;
      return <Form id={id} state={state} what={words.unfinished(body.look, body.answered)} />;
    }
  }
}

function Form({ id, state, what }: { id: string; state: StudyState; what: string }) {
  const lead = useLead();
  const doing = useDoing();
  const [opener, setOpener] = useState<Opener>({ by: "passphrase", text: "" });
  const go = (): void =>
    doing.run(async () => {
      await takeLook(lead, id, opener);
      // what the rule said is in the log; key and answers must not outlive the look: strings cannot be wiped, a page can
      window.location.reload();
    });
  return (
    <>
      <p>{what}</p>
      <p>{words.lead}</p>
      <p>
        {words.counted} {words.online}
      </p>
      {state.lock ? <Invented plan={state.lock.body.plan} opens /> : null}
      <section>
        <OpenerFields opener={opener} onOpener={setOpener} />
        <ProblemNote thrown={doing.thrown} />
      </section>
      <section class="heavy">
        <WordGate
          word={words.word}
          action={words.go}
          working={words.working}
          busy={doing.busy}
          hindrance={opener.text.trim() === "" ? words.missing : null}
          go={go}
        />
      </section>
    </>
  );
}

function Said({ id, said }: { id: string; said: "go-on" | "stop" }) {
  return (
    <section role="status">
      <p class="lead-in">{words.said[said]}</p>
      <p>{said === "stop" ? words.stopMore : words.goOnMore}</p>
      {said === "stop" ? (
        <p>
          <a class="button next" href={stepAddress(id, "close")}>
            {words.close}
          </a>
        </p>
      ) : null}
    </section>
  );
}

function Before({ state }: { state: StudyState }) {
  if (state.looks.length === 0) return null;
  return (
    <section>
      <h2>{words.before}</h2>
      <ul class="plain">
        {state.looks.map(({ begun, done }) => (
          <li key={begun.id}>{words.row(begun.body.look, begun.at, begun.body.answered, done?.body.said ?? null)}</li>
        ))}
      </ul>
    </section>
  );
}

/** The step on the day's page: the look that is due, the one to finish, or the stop. Nothing between looks. */
export function LookStep({ id, state }: { id: string; state: StudyState }) {
  const next = lookOf(state)?.next;
  if (!next) return null;
  if (next.what === "stopped") {
    return (
      <a class="button next" href={stepAddress(id, "close")}>
        {words.stopAction}
      </a>
    );
  }
  if (next.what !== "due" && next.what !== "unfinished") return null;
  return (
    <a class="button next" href={stepAddress(id, "look")}>
      {next.what === "due" ? words.action(next.look) : words.finish(next.look.begun.body.look)}
    </a>
  );
}

/** One line of the day's page on where the rule stands; nothing without a rule. */
export function LookLine({ state }: { state: StudyState }) {
  const next = lookOf(state)?.next;
  if (next?.what === "later") return <p class="fine">{words.later(next.look, next.from)}</p>;
  return next?.what === "none" ? <p class="fine">{words.none}</p> : null;
}
