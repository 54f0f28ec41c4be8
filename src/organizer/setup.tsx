import { useEffect, useState } from "preact/hooks";
import { enrollDevice } from "../device/enrollment.ts";
import type { EventStore, Identity } from "../device/event-store.ts";
import { organizer } from "../words/en/organizer.ts";
import type { Fetch } from "./app-context.ts";
import { TextField } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";

type Props = {
  store: EventStore;
  fetcher: Fetch;
  /** A code that came with the address; empty when none did. */
  code: string;
  /** Who this browser was, when the server does not know it any more; null when it is set up for the first time. */
  before: Identity | null;
  onEnrolled: () => void;
};

/** Makes this browser a lead's or the kitchen's, with the one-time code of the server or of a lead; or makes it one again. */
export function Setup({ store, fetcher, code: given, before, onEnrolled }: Props) {
  const words = organizer.setup;
  const [name, setName] = useState(before?.name ?? "");
  const [code, setCode] = useState(given);
  const [busy, setBusy] = useState(false);
  const [tried, setTried] = useState(false);
  const [thrown, setThrown] = useState<unknown>(null);
  useEffect(() => {
    // a set-up address opened in a tab that stands here already: what was typed of the name stays
    if (given !== "") setCode(given);
  }, [given]);

  async function submit(): Promise<void> {
    setTried(true);
    if (busy || name.trim() === "" || code.trim() === "") return;
    setBusy(true);
    setThrown(null);
    try {
      const who = await enrollDevice(store, fetcher, ["lead", "kitchen"], { code: code.trim(), name: name.trim() });
      if (!who) throw new Error(words.wrongRole);
      onEnrolled();
    } catch (failure) {
      setThrown(failure);
      setBusy(false);
    }
  }

  const heading = before ? words.again.heading : words.heading;
  return (
    <Page heading={heading} windowTitle={heading}>
      <p class="lead-in">{before ? words.again.lead : words.lead}</p>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        <TextField
          id="setup-name"
          label={words.name}
          hint={words.nameHint}
          value={name}
          onInput={setName}
          autocomplete="name"
          problem={tried && name.trim() === "" ? words.missingName : null}
        />
        <TextField
          id="setup-code"
          label={words.code}
          hint={before ? words.again.codeHint : words.codeHint}
          value={code}
          max={40}
          onInput={setCode}
          autocomplete="one-time-code"
          problem={tried && code.trim() === "" ? words.missingCode : null}
        />
        <ProblemNote thrown={thrown} />
        <p>
          <button type="submit" class="next" aria-disabled={busy ? "true" : undefined}>
            {busy ? words.working : words.submit}
          </button>
        </p>
      </form>
    </Page>
  );
}
