import { useState } from "preact/hooks";
import type { FactOf } from "../log/fact.ts";
import type { Body, Paper } from "../model/event.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { appendEvent, type Lead, useLead } from "./app-context.ts";
import { Invented } from "./invented.tsx";
import { keyMemory } from "./key-memory.ts";
import { type Opener, OpenerFields, openWith } from "./open-key.tsx";
import { Page } from "./page.tsx";
import { printBody, printedBefore } from "./print-rules.ts";
import { ProblemNote } from "./problem-note.tsx";
import { papersAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";

type Printed = readonly FactOf<"paper-printed">[];
type Props = { id: string; lock: Body<"study-locked">; paper: Paper; printed: Printed; onOpen: () => void };

const words = paperWords.open;

/** Opens the key in the memory of this page, to print one paper. */
export function OpenForPrint({ id, lock, paper, printed, onOpen }: Props) {
  const lead = useLead();
  const doing = useDoing();
  const [opener, setOpener] = useState<Opener>({ by: "passphrase", text: "" });
  const [missing, setMissing] = useState(false);
  const submit = (): void => {
    if (opener.text.trim() === "") {
      setMissing(true);
      return;
    }
    doing.run(async () => {
      await openFor(lead, id, { lock, paper, printed, opener });
      onOpen();
    });
  };
  return (
    <Page heading={words.heading} windowTitle={paperNames[paper]}>
      <p class="fine under">
        <a href={papersAddress(id)}>{paperWords.back}</a>
      </p>
      <p class="lead-in">{paperNames[paper]}</p>
      <p>{printedBefore(paper, printed) ? words.again : words.first}</p>
      <p>{words.counts}</p>
      <Invented plan={lock.plan} opens />
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <OpenerFields
          opener={opener}
          onOpener={(next) => {
            setOpener(next);
            setMissing(false);
          }}
        />
        {missing ? (
          <p class="wrong" role="alert">
            {words.missing}
          </p>
        ) : null}
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
            {doing.busy ? words.working : words.action}
          </button>
        </p>
      </form>
    </Page>
  );
}

/** The print goes into the log before the key goes into memory: nobody sees the key without leaving a trace. */
async function openFor(
  lead: Lead,
  study: string,
  what: { lock: Body<"study-locked">; paper: Paper; printed: Printed; opener: Opener },
): Promise<void> {
  const { lock, paper, printed, opener } = what;
  const opened = await openWith(opener, lock);
  const body = printBody(paper, printed);
  await appendEvent(lead, { stream: { kind: "study", id: study }, kind: "paper-printed", body });
  const at = lead.now();
  const fresh = keyMemory.held(at, study)?.fresh ?? false;
  keyMemory.hold({ study, opened, passphrase: null, fresh, paper }, at);
}
