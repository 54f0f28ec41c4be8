import { useState } from "preact/hooks";
import { demoWords } from "../words/en/demo.ts";
import { useLead } from "./app-context.ts";
import { beginDemo, type Demo } from "./demo-loading.ts";
import { requireSecure } from "./lock.ts";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";

const words = demoWords.offer;

/**
 * A second action for a kitchen without studies, below "Begin a study": the demo, in one click. Once it is loaded, the
 * list of studies stands where this stood.
 */
export function DemoOffer() {
  const lead = useLead();
  const doing = useDoing();
  /** Written, but not known to be wholly with the server: what is to be gone on with after a failure. */
  const [begun, setBegun] = useState<Demo | null>(null);
  const load = (): void =>
    doing.run(async () => {
      const { isSecureContext, location } = window;
      requireSecure({ isSecureContext, origin: location.origin });
      const demo = begun ?? (await beginDemo(lead));
      setBegun(demo);
      await demo.finish();
    });
  const failed = doing.thrown !== null;
  return (
    <section>
      <h2>{words.heading}</h2>
      <p>{words.text}</p>
      <p>{words.keep}</p>
      <ProblemNote thrown={doing.thrown} />
      {failed && begun ? <p>{words.half}</p> : null}
      <p class="after">
        <button type="button" aria-disabled={doing.busy ? "true" : undefined} onClick={load}>
          {doing.busy ? words.loading : failed && begun ? words.again : words.load}
        </button>
      </p>
    </section>
  );
}
