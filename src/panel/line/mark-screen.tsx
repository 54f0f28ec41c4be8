import { useEffect, useState } from "preact/hooks";
import type { AskedAttribute } from "../../model/attribute.ts";
import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { LineScale } from "../../ui/line-scale.tsx";
import { panelLine as words } from "../../words/en/panel-line.ts";
import { onGlassChange } from "../card-check.ts";
import { useDesk } from "../desk.ts";
import { Frame, Meaning } from "../frame.tsx";
import type { LineBallot } from "./line-ballot.ts";
import { askedOf, elapsedAt, isLast, type Marking, secondsOf } from "./line-flow.ts";
import { Steps } from "./steps.tsx";

type Props = { step: Marking; ballot: LineBallot; problem: ProblemData | null; stop: () => void };

/** One sample, one property: the question, and the line or the steps under it. */
export function MarkScreen({ step, ballot, problem, stop }: Props) {
  const { words: common } = useDesk();
  const [hint, setHint] = useState<string | null>(null);
  const { attributes } = ballot.ask;
  const attribute = attributes[step.item];
  const code = step.tray.codes[step.sample] ?? "";
  const { mark, why } = askedOf(step);
  const due = useNextDue(step, ballot) ? words.mark.due : comesLast(step, ballot);
  if (!attribute) return null;
  const ready = mark !== null || why !== null;
  const keep = (): void => {
    if (ready) void ballot.keep();
    else setHint(attribute.form.kind === "line" ? words.mark.first : words.mark.stepFirst);
  };
  return (
    <Frame
      title={
        <>
          {step.now ? <strong class="now">{words.mark.now}</strong> : null}
          <span>{words.mark.ask(attribute, <CodeDigits key="code" code={code} />, ballot.packet.swallow)}</span>
        </>
      }
      tray={step.tray.tray}
      sample={code}
      place={words.mark.place(step.item + 1, attributes.length)}
      stop={stop}
      problem={problem}
      hint={ready ? due : (hint ?? due)}
      left={<Left step={step} ballot={ballot} />}
      right={
        <button type="button" class="next" aria-disabled={!ready} onClick={keep}>
          {common.question.keep}
        </button>
      }
    >
      {attribute.definition.trim() === "" ? null : (
        <Meaning of={words.mark.meaning(attribute.adjective.trim())}>{attribute.definition}</Meaning>
      )}
      {attribute.form.kind === "line" ? (
        <Line step={step} ballot={ballot} attribute={attribute} />
      ) : (
        <Steps
          labels={attribute.form.labels}
          place={mark?.fraction ?? null}
          choose={(chosen) => ballot.choose(chosen)}
          kept={step.settled}
        />
      )}
      {why === null ? null : <p>{words.mark.without}</p>}
    </Frame>
  );
}

/** The bare line, at its true length or not at all. */
function Line({ step, ballot, attribute }: Pick<Props, "step" | "ballot"> & { attribute: AskedAttribute }) {
  const fits = useFit(ballot);
  if (fits !== "fits") {
    return (
      <p role="alert" class="stop">
        {words.mark.noRoom[fits]}
      </p>
    );
  }
  return (
    <LineScale
      lengthPx={ballot.lengthPx}
      low={attribute.lowAnchor}
      high={attribute.highAnchor}
      labelledBy="title"
      mark={askedOf(step).mark}
      onMark={(next) => ballot.mark(next)}
      elapsed={() => elapsedAt(step, ballot.clock.monotonic())}
      after={ballot.clock.after}
      words={words.line}
      kept={step.settled}
    />
  );
}

function Left({ step, ballot }: Pick<Props, "step" | "ballot">) {
  return (
    <div class="actions">
      {step.item > 0 ? (
        <button type="button" onClick={() => ballot.back()}>
          {words.mark.back}
        </button>
      ) : null}
      <button type="button" onClick={() => ballot.cannot()}>
        {words.mark.cannot}
      </button>
    </div>
  );
}

/** Can the line be shown at its true length as the tablet is held and zoomed now? It is never shown shorter. */
function useFit(ballot: LineBallot): "fits" | "turn" | "zoom" {
  const [fit, setFit] = useState(ballot.fit());
  useEffect(() => {
    const look = (): void => setFit(ballot.fit());
    look();
    return onGlassChange(look);
  }, [ballot]);
  return fit;
}

/** What is still to come of this chew and only the panelist can tell: so that nobody swallows it away unasked. */
function comesLast(step: Marking, { ask, packet }: LineBallot): string | null {
  const next = step.item + 1;
  const waits = ask.attributes.slice(next).some(({ moment }, at) => isLast(moment) && step.asked[next + at] === null);
  return waits && step.bite !== null ? words.chew.ahead(packet.swallow) : null;
}

/** Has the moment of the next question come, while this one is still on screen? */
function useNextDue(step: Marking, ballot: LineBallot): boolean {
  const { clock, ask } = ballot;
  const seconds = secondsOf(ask.attributes[step.item + 1]);
  const waits =
    seconds !== null && seconds > 0 && step.bite !== null && step.asked[step.item + 1] === null && !step.settled;
  const dueAt = (step.bite ?? 0) + (seconds ?? 0) * 1000;
  const [due, setDue] = useState(false);
  useEffect(() => {
    setDue(false);
    return waits ? clock.after(Math.max(0, dueAt - clock.monotonic()), () => setDue(true)) : undefined;
  }, [waits, dueAt, clock]);
  return due && waits;
}
