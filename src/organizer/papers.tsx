import { useState } from "preact/hooks";
import type { FactOf } from "../log/fact.ts";
import type { StudyState } from "../log/fold.ts";
import type { Paper } from "../model/event.ts";
import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { type HeldKey, keyMemory } from "./key-memory.ts";
import { OpenForPrint } from "./open-for-print.tsx";
import { Page } from "./page.tsx";
import { PaperView } from "./paper-view.tsx";
import { PassphraseOnce, passphraseKnown } from "./passphrase-once.tsx";
import { keyPapers, mayShow, showsKey } from "./print-rules.ts";
import { papersAddress } from "./route.ts";
import { BackToDay } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";

type Props = StudyProps & { lock: FactOf<"study-locked">; paper: Paper | null };

/** The papers of a locked study. Right after the lock nothing comes before the passphrase. */
export function Papers({ id, state, lock, paper }: Props) {
  const lead = useLead();
  const [held, setHeld] = useState<HeldKey | null>(() => keyMemory.held(lead.now(), id));
  // settled when the page opens: a paper must not vanish under its own print dialog because the print is in the log now
  const [shown, setShown] = useState(() => paper !== null && mayShow(paper, held, state.papers));
  const look = (): HeldKey | null => {
    const now = keyMemory.held(lead.now(), id);
    setHeld(now);
    return now;
  };
  if (held?.passphrase) {
    const written = (): void => {
      const now = look();
      setShown(paper !== null && mayShow(paper, now, state.papers));
    };
    return <PassphraseOnce id={id} lock={lock.body} held={held} printed={state.papers} onWritten={written} />;
  }
  if (paper === null) return <PaperList id={id} state={state} lock={lock} held={held} />;
  if (!shown) {
    const open = (): void => {
      look();
      setShown(true);
    };
    return <OpenForPrint id={id} lock={lock.body} paper={paper} printed={state.papers} onOpen={open} />;
  }
  const over = (): void => {
    if (!showsKey(paper)) return;
    setShown(false);
    if (keyMemory.printed(paper) === "drop") window.location.reload();
  };
  return <PaperView id={id} lock={lock.body} paper={paper} held={held} printed={state.papers} onOver={over} />;
}

/** In the order of their use on the day; backup ballots are hoped not to be needed. */
const freePapers = ({ packet }: Props["lock"]["body"]): readonly Paper[] => [
  ...(["tray-cards", "labels", "check-list", "seating", "door-sign"] as const),
  ...(packet.chew ? (["weighing-sheet"] as const) : []),
  "backup-ballots",
];
/** They name products: for the kitchen alone. */
const kitchenPapers = ({ draw }: Props["lock"]["body"]): readonly Paper[] => [
  "prep-list",
  ...(draw ? (["process-draw"] as const) : []),
];

type ListProps = { id: string; state: StudyState; lock: FactOf<"study-locked">; held: HeldKey | null };

function PaperList({ id, state, lock, held }: ListProps) {
  const lead = useLead();
  const known = useReading(() => lead.store.meta(passphraseKnown(id)), watchOf(lead.store), [id]);
  const doubt = lock.device === lead.who.device && known !== true && state.reveal === null;
  return (
    <Page
      heading={paperWords.heading}
      windowTitle={paperWords.heading}
      margin={held ? <p>{paperWords.leave}</p> : null}
    >
      <BackToDay id={id} />
      {doubt ? <p class="stop">{paperWords.passphraseInDoubt}</p> : null}
      <p class="lead-in">{paperWords.lead}</p>
      <section>
        <h2>{paperWords.withKey}</h2>
        <p>{paperWords.withKeyNote}</p>
        <p>{paperWords.withKeyRule}</p>
        <PaperLinks id={id} state={state} list={keyPapers} />
      </section>
      <section>
        <h2>{paperWords.forKitchen}</h2>
        <p>{paperWords.forKitchenNote}</p>
        <PaperLinks id={id} state={state} list={kitchenPapers(lock.body)} />
      </section>
      <section>
        <h2>{paperWords.withoutKey}</h2>
        <PaperLinks id={id} state={state} list={freePapers(lock.body)} />
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
