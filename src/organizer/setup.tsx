import { useState } from "preact/hooks";
import type { DeviceStore, Identity } from "../device/store.ts";
import { enroll } from "../device/transport.ts";
import { organizer } from "../words/en/organizer.ts";
import type { Fetch } from "./app-context.ts";
import { TextField } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";

type Props = { store: DeviceStore; fetcher: Fetch; code: string; onEnrolled: (who: Identity) => void };

/** Makes this browser a lead's, with the one-time code of the server or of another lead. */
export function Setup({ store, fetcher, code: given, onEnrolled }: Props) {
  const words = organizer.setup;
  const [name, setName] = useState("");
  const [code, setCode] = useState(given);
  const [busy, setBusy] = useState(false);
  const [tried, setTried] = useState(false);
  const [thrown, setThrown] = useState<unknown>(null);

  async function submit(): Promise<void> {
    setTried(true);
    if (busy || name.trim() === "" || code.trim() === "") return;
    setBusy(true);
    setThrown(null);
    try {
      const { device, token, role, name: called } = await enroll(fetcher, code.trim(), name.trim());
      if (role !== "lead") throw new Error(words.wrongRole);
      const who: Identity = { device, token, role, name: called, formerly: [] };
      await store.setMeta("identity", who);
      onEnrolled(who);
    } catch (failure) {
      setThrown(failure);
      setBusy(false);
    }
  }

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <p class="lead-in">{words.lead}</p>
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
          hint={words.codeHint}
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
