import { useEffect, useState } from "preact/hooks";
import type { FactOf } from "../log/fact.ts";
import type { Body } from "../model/event.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { useLead } from "./app-context.ts";
import { TextField } from "./fields.tsx";
import { type HeldKey, keyMemory } from "./key-memory.ts";
import { knowsPassphrase } from "./lock.ts";
import { Page } from "./page.tsx";
import { SealedPage } from "./paper-sealed.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { usePrint } from "./use-print.ts";

const words = lockWords.once;

/** Under which name this browser remembers that the passphrase of a study it locked was written down. */
export const passphraseKnown = (study: string): string => `passphrase-known ${study}`;

type Props = {
  id: string;
  lock: Body<"study-locked">;
  held: HeldKey;
  printed: readonly FactOf<"paper-printed">[];
  onWritten: () => void;
};

/** The one time the passphrase is shown. It goes on only when its first and last word were typed back. */
export function PassphraseOnce({ id, lock, held, printed, onWritten }: Props) {
  const lead = useLead();
  const { print, size, thrown } = usePrint({ study: id, paper: "sealed-page", printed, covered: false });
  const passphrase = held.passphrase ?? "";
  useEffect(() => {
    // whoever closes the window now may lose the only way in
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, []);
  const written = (): void => {
    keyMemory.dropPassphrase(lead.now());
    // a window that closes before this leaves the papers saying that nobody may have the passphrase
    void lead.store.setMeta(passphraseKnown(id), true).catch(() => undefined);
    onWritten();
  };
  return (
    <>
      <Page heading={words.heading} windowTitle={words.heading}>
        <p class="lead-in">{words.lead}</p>
        <ol class="passphrase" aria-label={words.words}>
          {passphrase.split(" ").map((word, at) => (
            <li key={`${at} ${word}`}>{word}</li>
          ))}
        </ol>
        <section>
          <p>{words.sealed}</p>
          <p>
            <button type="button" onClick={print}>
              {words.print}
            </button>
          </p>
          <ProblemNote thrown={thrown} />
          <p class="stop">{words.lost}</p>
        </section>
        <WrittenDown passphrase={passphrase} onWritten={written} />
      </Page>
      <div class="print-only">
        <SealedPage lock={lock} opened={held.opened} passphrase={passphrase} size={size} />
      </div>
    </>
  );
}

/** Its first and last word, typed back: whoever can do that has it on paper. */
function WrittenDown({ passphrase, onWritten }: { passphrase: string; onWritten: () => void }) {
  const [first, setFirst] = useState("");
  const [last, setLast] = useState("");
  const [wrong, setWrong] = useState(false);
  return (
    <section class="heavy">
      <h2>{words.checkHeading}</h2>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (knowsPassphrase(passphrase, first, last)) onWritten();
          else setWrong(true);
        }}
      >
        <div class="pair">
          <TextField id="once-first" label={words.first} value={first} onInput={setFirst} />
          <TextField id="once-last" label={words.last} value={last} onInput={setLast} />
        </div>
        {wrong ? (
          <p class="wrong" role="alert">
            {words.wrong}
          </p>
        ) : null}
        <p class="after">
          <button type="submit" class="next">
            {words.submit}
          </button>
        </p>
      </form>
    </section>
  );
}
