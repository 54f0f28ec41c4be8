import { useState } from "preact/hooks";
import { enrollDevice } from "../device/enrollment.ts";
import type { EventStore } from "../device/event-store.ts";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { Frame } from "./furniture.tsx";
import type { Fetch } from "./load.ts";
import { ElsewhereLink } from "./study-list.tsx";

type Props = { store: EventStore; fetcher: Fetch; code: string; onDone: () => void };

/** Asks for a one-time reader code and a name, and keeps what the server answers. */
export function EnrollForm({ store, fetcher, code: codeGiven, onDone }: Props) {
  const words = reader.enroll;
  const [code, setCode] = useState(codeGiven);
  const [name, setName] = useState("");
  const [step, setStep] = useState<{ at: "asking"; problem: string } | { at: "sending" }>({
    at: "asking",
    problem: "",
  });

  async function submit(event: Event): Promise<void> {
    event.preventDefault();
    if (step.at === "sending") return;
    if (code.trim() === "" || name.trim() === "") return setStep({ at: "asking", problem: words.missing });
    setStep({ at: "sending" });
    try {
      const typed = { code: code.trim(), name: name.trim() };
      const who = await enrollDevice(store, fetcher, ["reader", "lead"], typed);
      if (!who) return setStep({ at: "asking", problem: words.wrongRole });
      onDone();
    } catch (thrown) {
      setStep({ at: "asking", problem: sentenceOf(thrown) });
    }
  }

  return (
    <Frame>
      <h1>{words.heading}</h1>
      <p class="room">{words.lead}</p>
      <form class="enroll" onSubmit={(event) => void submit(event)}>
        <label>
          {words.code}
          <input
            value={code}
            onInput={(event) => setCode(event.currentTarget.value)}
            autocomplete="one-time-code"
            autocapitalize="none"
            spellcheck={false}
          />
        </label>
        <label>
          {words.name}
          <input
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
            autocomplete="name"
            maxlength={100}
          />
        </label>
        <p role="alert" class="problem">
          {step.at === "asking" ? step.problem : ""}
        </p>
        <button type="submit" class="next">
          {step.at === "sending" ? words.working : words.submit}
        </button>
      </form>
      <ElsewhereLink />
    </Frame>
  );
}
