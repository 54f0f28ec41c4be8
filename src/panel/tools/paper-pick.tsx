import { useEffect, useState } from "preact/hooks";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { trayLabel } from "../../model/tray.ts";
import { panelPaper as words } from "../../words/en/panel-paper.ts";
import { useDesk } from "../desk.ts";
import { asTyped } from "../flow.ts";
import { Frame } from "../frame.tsx";
import { Plain } from "../screens/pages.tsx";
import type { Begun } from "./paper-draft.ts";

type PickProps = {
  packet: BlindPacket;
  begun: () => Promise<Begun[]>;
  problem: ProblemData | null;
  open: (typed: string) => void;
  leave: () => void;
};

/** Which ballot: the tray number that stands on it. Says which ones were begun here and not kept. */
export function PickTray({ packet, begun: read, problem: failed, open, leave }: PickProps) {
  const [typed, setTyped] = useState("");
  const begun = useBegun(read);
  const [hint, setHint] = useState<string | null>(null);
  const submit = (event: Event): void => {
    event.preventDefault();
    if (typed.length < 2) setHint(words.nothingTyped);
    else open(typed);
  };
  return (
    <form class="whole" onSubmit={submit}>
      <Frame
        title={words.title}
        problem={failed}
        hint={hint}
        left={<Plain label={words.back} press={leave} />}
        right={
          <button type="submit" class="next" aria-disabled={typed.length < 2}>
            {words.next}
          </button>
        }
      >
        <p class="lead-in">{words.lead}</p>
        <div class="paper-pick">
          <label for="paper-tray">{words.field}</label>
          <input
            id="paper-tray"
            class="tray-number"
            type="text"
            inputMode="numeric"
            autocomplete="off"
            placeholder={useDesk().words.rest.empty}
            value={typed}
            onInput={(event) => {
              setHint(null);
              setTyped(asTyped(event.currentTarget.value));
            }}
          />
        </div>
        {begun.length > 0 ? (
          <p class="fine">{words.begun(begun.map((one) => ({ ...one, label: trayLabel(one.tray) })))}</p>
        ) : null}
        <p class="fine">{words.seal(packet.commitment)}</p>
      </Frame>
    </form>
  );
}

/** Typings that were left half way on this tablet, as they were when the page opened; none where they cannot be read. */
function useBegun(read: () => Promise<Begun[]>): Begun[] {
  const [begun, setBegun] = useState<Begun[]>([]);
  useEffect(() => {
    let here = true;
    const take = (found: Begun[]) => here && setBegun(found);
    read().then(take, () => take([]));
    return () => {
      here = false;
    };
  }, []);
  return begun;
}
