import type { FactOf } from "../log/fact.ts";
import type { Body, Paper } from "../model/event.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { Choice } from "./fields.tsx";
import type { HeldKey } from "./key-memory.ts";
import { LabelTools, useLabels } from "./label-tools.tsx";
import { Page } from "./page.tsx";
import { BackupBallots } from "./paper-ballots.tsx";
import { TrayCards } from "./paper-cards.tsx";
import { CheckList } from "./paper-checks.tsx";
import { DoorSign, DoorTools, useDoorContact } from "./paper-door.tsx";
import { ProcessDraw } from "./paper-draw.tsx";
import { KitchenByProduct, KitchenByTray } from "./paper-kitchen.tsx";
import { Labels } from "./paper-labels.tsx";
import { PrepList } from "./paper-prep.tsx";
import { SealedPage } from "./paper-sealed.tsx";
import { NameTools, Seating, useNames } from "./paper-seating.tsx";
import { WeighingSheet } from "./paper-weighing.tsx";
import { showsKey } from "./print-rules.ts";
import { ProblemNote } from "./problem-note.tsx";
import { papersAddress } from "./route.ts";
import { usePrint } from "./use-print.ts";

type Lock = Body<"study-locked">;
type Props = {
  id: string;
  lock: Lock;
  paper: Paper;
  held: HeldKey | null;
  printed: readonly FactOf<"paper-printed">[];
  /** A print is over. */
  onOver: () => void;
};

/** One paper: how it will look, and the button that prints it. */
export function PaperView({ id, lock, paper, held, printed, onOver }: Props) {
  const covered = held?.paper === paper;
  const { size, setSize, print, thrown } = usePrint({ study: id, paper, printed, covered, onOver });
  const labels = useLabels(size);
  const names = useNames(id);
  const door = useDoorContact();
  return (
    <>
      <Page heading={paperNames[paper]} windowTitle={paperNames[paper]}>
        <p class="fine under">
          <a href={papersAddress(id)}>{paperWords.back}</a>
        </p>
        <p>{paperWords.what[paper]}</p>
        {showsKey(paper) ? <p>{paperWords.sizeFirst}</p> : null}
        <div class="print-tools">
          <Choice id="paper-size" legend={paperWords.size} options={paperWords.sizes} value={size} onChange={setSize} />
          {paper === "labels" ? <LabelTools size={size} choice={labels} /> : null}
          {paper === "seating" ? <NameTools id={id} lock={lock} names={names} /> : null}
          {paper === "door-sign" ? <DoorTools door={door} /> : null}
          <p>
            <button type="button" class="next" onClick={print}>
              {paperWords.print}
            </button>
          </p>
          <ProblemNote thrown={thrown} />
        </div>
      </Page>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, so the keyboard must reach it */}
      <section class="desk" aria-label={paperWords.preview} tabIndex={0}>
        {paper === "tray-cards" ? <TrayCards lock={lock} size={size} /> : null}
        {paper === "labels" ? <Labels lock={lock} size={size} grid={labels.grid} first={labels.first} /> : null}
        {paper === "seating" ? <Seating lock={lock} size={size} names={names} /> : null}
        {paper === "check-list" ? <CheckList lock={lock} size={size} /> : null}
        {paper === "door-sign" ? (
          <DoorSign lock={lock} size={size} contact={door.contact.trim() || lock.plan.contact} />
        ) : null}
        {paper === "prep-list" ? <PrepList lock={lock} size={size} /> : null}
        {paper === "process-draw" ? <ProcessDraw lock={lock} size={size} /> : null}
        {paper === "weighing-sheet" ? <WeighingSheet lock={lock} size={size} /> : null}
        {paper === "backup-ballots" ? <BackupBallots packet={lock.packet} size={size} /> : null}
        {paper === "kitchen-by-product" && held ? (
          <KitchenByProduct lock={lock} opened={held.opened} size={size} />
        ) : null}
        {paper === "kitchen-by-tray" && held ? <KitchenByTray lock={lock} opened={held.opened} size={size} /> : null}
        {paper === "sealed-page" && held ? (
          <SealedPage lock={lock} opened={held.opened} passphrase={null} size={size} />
        ) : null}
      </section>
    </>
  );
}
