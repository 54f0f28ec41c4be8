import { useState } from "preact/hooks";
import { problem } from "../../model/problem.ts";
import { deviceProblemSentence } from "../../words/device-problem-sentence.ts";
import { useDesk } from "../desk.ts";
import type { Emptied } from "../emptied.ts";

/** On a plain http address: what will not work there. Nothing on a secure one. */
export function Insecure() {
  const { words } = useDesk();
  if (window.isSecureContext) return null;
  return (
    <div class="notice">
      <p>{words.insecure.title}</p>
      <ul>
        {words.insecure.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p>{words.insecure.advice}</p>
    </div>
  );
}

/** The storage of this tablet was cleared: said until the lead has seen it. */
export function EmptiedNotice({ emptied, seen }: { emptied: Emptied; seen: () => void }) {
  const { words } = useDesk();
  return (
    <div class="notice">
      <p role="alert" class="stop">
        {deviceProblemSentence(problem("device/emptied", emptied).problem)}
      </p>
      <button type="button" onClick={seen}>
        {words.rest.emptiedSeen}
      </button>
    </div>
  );
}

type UpdateProps = {
  /** Lets the new version take over; false when another window has a tray open. */
  update: () => Promise<boolean>;
};

/** A new version waits; it takes over only here, between trays. */
export function UpdateNotice({ update }: UpdateProps) {
  const { words } = useDesk();
  const [later, setLater] = useState(false);
  return (
    <div class="notice across">
      <p role="status">{later ? words.rest.updateLater : words.rest.update}</p>
      <button type="button" onClick={() => void update().then((done) => setLater(!done))}>
        {words.rest.updateNow}
      </button>
    </div>
  );
}

/** The server does not know this tablet any more. Trays can be answered all the same. */
export function EnrollAgain({ go }: { go: () => void }) {
  const { words } = useDesk();
  return (
    <div class="notice across">
      <p>{words.enroll.again}</p>
      <button type="button" onClick={go}>
        {words.rest.enrollAgain}
      </button>
    </div>
  );
}
