import { useState } from "preact/hooks";
import type { FactOf, StudyState } from "../log/fold.ts";
import { type Paper, papers } from "../model/event.ts";
import { organizer } from "../words/en/organizer.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { type HeldKey, heldKey, holdKey } from "./key-memory.ts";
import { type Opener, OpenerFields, openWith } from "./open-key.tsx";
import { Page } from "./page.tsx";
import { PaperView } from "./paper-view.tsx";
import { PassphraseOnce } from "./passphrase-once.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { papersAddress } from "./route.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";

export const keyPapers = ["kitchen-by-product", "kitchen-by-tray", "sealed-page"] as const satisfies readonly Paper[];
export const showsKey = (paper: Paper): boolean => (keyPapers as readonly Paper[]).includes(paper);

type Props = StudyProps & { lock: FactOf<"study-locked">; paper: Paper | null };

/** The papers of a locked study. Right after the lock nothing comes before the passphrase. */
export function Papers({ id, state, lock, paper }: Props) {
  const [held, setHeld] = useState<HeldKey | null>(() => heldKey(id));
  const look = (): void => setHeld(heldKey(id));
  if (held?.passphrase) return <PassphraseOnce id={id} lock={lock.body} held={held} onWritten={look} />;
  if (paper === null) return <PaperList id={id} state={state} held={held} />;
  if (showsKey(paper) && held === null) return <OpenForPrint id={id} lock={lock} paper={paper} onOpen={look} />;
  return <PaperView id={id} lock={lock.body} paper={paper} held={held} />;
}

function PaperList({ id, state, held }: { id: string; state: StudyState; held: HeldKey | null }) {
  const free = papers.filter((paper) => !showsKey(paper));
  return (
    <Page
      heading={paperWords.heading}
      windowTitle={paperWords.heading}
      margin={held ? <p>{paperWords.leave}</p> : null}
    >
      <BackToDay id={id} />
      <p class="lead-in">{paperWords.lead}</p>
      <section>
        <h2>{paperWords.withKey}</h2>
        <p>{paperWords.withKeyNote}</p>
        <PaperLinks id={id} state={state} list={keyPapers} />
      </section>
      <section>
        <h2>{paperWords.withoutKey}</h2>
        <PaperLinks id={id} state={state} list={free} />
      </section>
    </Page>
  );
}

function PaperLinks({ id, state, list }: { id: string; state: StudyState; list: readonly Paper[] }) {
  return (
    <dl class="papers">
      {list.map((paper) => {
        const printed = state.papers.filter((fact) => fact.body.paper === paper).at(-1);
        return (
          <div key={paper}>
            <dt>
              <a href={papersAddress(id, paper)}>{paperNames[paper]}</a>
            </dt>
            <dd class="fine">
              {paperWords.what[paper]}
              {printed ? ` ${paperWords.once} ${organizer.dayAndTime(printed.at)}` : ""}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

type OpenProps = { id: string; lock: FactOf<"study-locked">; paper: Paper; onOpen: () => void };

/** Opens the key in the memory of this page, to print a paper again. */
function OpenForPrint({ id, lock, paper, onOpen }: OpenProps) {
  const words = paperWords.open;
  const doing = useDoing();
  const [opener, setOpener] = useState<Opener>({ by: "passphrase", text: "" });
  const [missing, setMissing] = useState(false);
  const submit = (): void => {
    if (opener.text.trim() === "") {
      setMissing(true);
      return;
    }
    doing.run(async () => {
      holdKey({ study: id, opened: await openWith(opener, lock.body), passphrase: null, fresh: false });
      onOpen();
    });
  };
  return (
    <Page heading={words.heading} windowTitle={paperNames[paper]}>
      <p class="fine under">
        <a href={papersAddress(id)}>{paperWords.back}</a>
      </p>
      <p class="lead-in">{paperNames[paper]}</p>
      <p>{words.lead}</p>
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
