import { useEffect, useState } from "preact/hooks";
import type { Body } from "../model/event.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { TextField } from "./fields.tsx";
import { dropPassphrase, type HeldKey } from "./key-memory.ts";
import { knowsPassphrase } from "./lock.ts";
import { Page } from "./page.tsx";
import { SealedPage } from "./paper-sealed.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { usePrint } from "./use-print.ts";

type Props = { id: string; lock: Body<"study-locked">; held: HeldKey; onWritten: () => void };

/** The one time the passphrase is shown. It goes on only when its first and last word were typed back. */
export function PassphraseOnce({ id, lock, held, onWritten }: Props) {
  const words = lockWords.once;
  const { print, size, thrown } = usePrint(id, held);
  const [first, setFirst] = useState("");
  const [last, setLast] = useState("");
  const [wrong, setWrong] = useState(false);
  const passphrase = held.passphrase ?? "";
  useEffect(() => {
    // whoever closes the window now may lose the only way in
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, []);

  const submit = (): void => {
    if (!knowsPassphrase(passphrase, first, last)) {
      setWrong(true);
      return;
    }
    dropPassphrase();
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
            <button type="button" onClick={() => print("sealed-page")}>
              {words.print}
            </button>
          </p>
          <ProblemNote thrown={thrown} />
          <p class="stop">{words.lost}</p>
        </section>
        <section class="heavy">
          <h2>{words.checkHeading}</h2>
          <form
            onSubmit={(event) => {
              event.preventDefault();
              submit();
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
      </Page>
      <div class="print-only">
        <SealedPage lock={lock} opened={held.opened} passphrase={passphrase} size={size} />
      </div>
    </>
  );
}
