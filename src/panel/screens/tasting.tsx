import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import type { Clock } from "../clock.ts";
import { useDesk } from "../desk.ts";
import { cupsOf, resting, secondsLeft, type Tasting as TastingStep } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  step: Pick<TastingStep, "tray" | "touched" | "restUntil">;
  packet: BlindPacket;
  title: string;
  /** What to do now, with the code whose turn it is. */
  now: (code: ComponentChildren) => ComponentChildren;
  problem: ProblemData | null;
  touch: (cup: string) => void;
  differ: () => void;
  stop: () => void;
};

/** The cups as they stand on the tray, touched one after the other: a check of the labels, and the order of tasting. */
export function Tasting({ step, packet, title, now, problem, touch, differ, stop }: Props) {
  const { words, clock } = useDesk();
  const { tasting } = words;
  const [hint, setHint] = useState<string | null>(null);
  useTicks(clock, step.restUntil);
  const pausing = resting(step, clock.monotonic());
  const press = (cup: string): void => {
    setHint(pausing ? tasting.early : null);
    touch(cup);
  };
  const { reference } = packet;
  const cups = cupsOf(step.tray, packet);
  const next = cups[step.touched] ?? "";
  const say = reference && next === reference ? tasting.nowReference[reference] : now;
  return (
    <Frame
      title={title}
      tray={step.tray.tray}
      stop={stop}
      problem={problem}
      hint={pausing ? hint : null}
      left={
        <button type="button" onClick={differ}>
          {tasting.differ}
        </button>
      }
    >
      {/* read out when the turn changes; the seconds below it are not */}
      <p class="lead-in" aria-live="polite">
        {pausing ? tasting.resting(packet.cleanser) : say(<CodeDigits key="code" code={next} />)}
      </p>
      <fieldset class="three" style={{ "--columns": columnsFor(cups.length) }} aria-label={tasting.codes}>
        {cups.map((cup, place) => (
          <button
            key={cup}
            type="button"
            class={`field${place === step.touched && !pausing ? " turn" : ""}${cup === reference ? " apart" : ""}`}
            aria-disabled={pausing}
            onClick={() => press(cup)}
          >
            <CodeDigits code={cup} />
            <small>
              {place < step.touched
                ? tasting.tasted
                : place === step.touched && !pausing
                  ? tasting.next
                  : tasting.notYet}
            </small>
          </button>
        ))}
      </fieldset>
      <p class="left-over">{pausing ? tasting.left(secondsLeft(step.restUntil ?? 0, clock.monotonic())) : null}</p>
    </Frame>
  );
}

/** Fields stand in one row, up to four; more in two rows, so that a code stays large enough to be read. */
export const columnsFor = (codes: number): number => (codes > 4 ? 3 : codes);

/** Draws again each time another five seconds of the pause are over, and at its end. */
function useTicks(clock: Clock, until: number | null): void {
  const [, again] = useState(0);
  useEffect(() => {
    const left = until === null ? 0 : until - clock.monotonic();
    if (left <= 0) return;
    return clock.after(left % 5000 || 5000, () => again((count) => count + 1));
  });
}
