import { useEffect, useRef, useState } from "preact/hooks";
import { offersBalance } from "../device/balance.ts";
import { keptBalanceSettings } from "../device/balance-settings.ts";
import type { BalanceLine } from "../model/balance-line.ts";
import { balanceWords as words } from "../words/en/organizer-balance.ts";
import { problemSentence } from "../words/problem-sentence.ts";
import { useLead } from "./app-context.ts";
import { balance, useBalance } from "./use-balance.ts";

/** Is there a balance to take readings from? True once one was connected, or may be without asking. */
export function useTakes(): boolean {
  const known = useBalance((state) => state.known);
  return known && offersBalance();
}

type Props = {
  /** Of the button: unique on the page. */
  id: string;
  /** What the field is called that the reading goes into. */
  field: string;
  /** Is given grams as the balance shows them: digits that `readingPattern` takes, stable, not below nothing. */
  onTake: (grams: string) => void;
  /** The step of the balance in grams where it is recorded: a reading in coarse kilograms is taken only beside that. */
  step?: string;
};

/**
 * A quiet way to take one reading from the balance into a field. The next reading is taken that is stable, or of which
 * the balance does not say; until then it waits and says why. One waits at a time: the next press lets the first go.
 * A page that has it has `BalancePart` as well.
 */
export function BalanceTake({ id, field, onTake, step = "" }: Props) {
  const takes = useTakes();
  const { waiting, said, begin, stop } = useTaking(onTake, Number(step));
  if (!takes) return null;
  return (
    <div class="balance-take">
      <button
        type="button"
        class="quiet"
        id={id}
        aria-label={waiting ? undefined : words.takeInto(field)}
        aria-describedby={`${id}-said`}
        onClick={() => (waiting ? stop() : void begin())}
        onKeyDown={(event) => {
          if (event.key === "Escape") stop();
        }}
      >
        {waiting ? words.stop : words.take}
      </button>
      <p class="fine" role="status" id={`${id}-said`}>
        {said}
      </p>
    </div>
  );
}

/** Waiting for one reading: whether it waits, and what is to be said of it. */
function useTaking(onTake: (grams: string) => void, step: number) {
  const { store } = useLead();
  const problem = useBalance((state) => state.problem);
  const [waiting, setWaiting] = useState(false);
  const [word, setWord] = useState("");
  const letGo = useRef<(() => void) | null>(null);
  const latest = useRef(onTake);
  latest.current = onTake;
  const latestStep = useRef(step);
  latestStep.current = step;

  const end = (said: string): void => {
    letGo.current?.();
    letGo.current = null;
    setWaiting(false);
    setWord(said);
  };
  const line = (read: BalanceLine): void => {
    const grams = takenFrom(read, latestStep.current);
    if (grams === null) setWord((before) => hindranceOf(read) ?? before);
    else {
      end("");
      latest.current(grams);
    }
  };
  const begin = async (): Promise<void> => {
    const over = (): void => {
      const { problem } = balance.state();
      end(problem ? problemSentence(problem) : "");
    };
    letGo.current = balance.wait({ line, over });
    setWaiting(true);
    setWord(words.waiting);
    if (balance.state().link === "closed") await balance.connect(await keptBalanceSettings(store));
  };
  useEffect(() => () => letGo.current?.(), []);
  return { waiting, said: waiting && problem ? problemSentence(problem) : word, begin, stop: () => end("") };
}

/** The reading of a line if it may be taken: stable as far as the balance says, and not below nothing. */
const takenFrom = (line: BalanceLine, step: number): string | null =>
  line.kind === "reading" && line.stable !== false && !line.grams.startsWith("-") && (line.coarseStep ?? 0) <= step
    ? line.grams
    : null;

/** Why a line is not taken; null where nothing has to be said of it. */
function hindranceOf(line: BalanceLine): string | null {
  if (line.kind === "reading") {
    if (line.stable === false) return words.unstable;
    return line.grams.startsWith("-") ? words.negative : words.coarse(line.coarseStep ?? 0);
  }
  // whoever connects comes into the middle of a line
  return line.why === "cut" ? null : words.waitsFor(line.why);
}
