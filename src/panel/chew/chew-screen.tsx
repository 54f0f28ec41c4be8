import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { panelChew as words } from "../../words/en/panel-chew.ts";
import { Frame } from "../frame.tsx";
import { CallSomebody } from "../help/call-somebody.tsx";
import { Compared } from "../screens/compare.tsx";
import type { ChewBallot } from "./chew-ballot.ts";
import type { ChewStep, Portion, PortionIn } from "./chew-flow.ts";
import "./chew.css";

type Acts = { differ: () => void; stop: () => void };
type Props<Step> = Acts & { step: Step; ballot: ChewBallot; problem: ProblemData | null };

/** The screen of a step of a tray of portions. */
export function ChewScreen({ step, ...rest }: Props<ChewStep>) {
  const { ballot } = rest;
  if (step.at === "compare") {
    return <Compared tray={step.tray} words={words.compare} matches={() => ballot.matches()} {...rest} />;
  }
  // each phase is a page of its own, so that the focus goes to its heading
  const key = `${step.sample} ${step.phase}`;
  switch (step.phase) {
    case "mouth":
      return <MouthScreen key={`${key} ${step.until}`} step={step} {...rest} />;
    case "wait":
      return (
        <Sheet key={key} step={step} title={words.wait.title} {...rest}>
          <p class="lead-in">{words.wait.text(ballot.ask.waitSeconds)}</p>
        </Sheet>
      );
    case "bite":
      return <BiteScreen key={key} step={step} {...rest} />;
    case "chew":
      return <ClockScreen key={`${key} ${step.now}`} step={step} {...rest} />;
    case "whole":
      return <WholeScreen key={key} step={step} {...rest} />;
    case "lid":
      return <LidScreen key={key} step={step} {...rest} />;
  }
}

type SheetProps = Props<Portion> & {
  title: ComponentChildren;
  go?: { label: string; act: () => void; off?: boolean };
  hint?: string | null;
  /** While the chew clock runs nothing else asks for a hand or an eye; "Stop now" stays. */
  quiet?: boolean;
  children?: ComponentChildren;
};

/** What all of them are set on: the tray, the place in it, and one way on. */
function Sheet({ step, stop, problem, title, go, hint, quiet = false, children }: SheetProps) {
  const { tray, sample } = step;
  return (
    <Frame
      title={title}
      tray={tray.tray}
      sample={tray.codes[sample] ?? ""}
      place={words.place(sample + 1, tray.codes.length)}
      stop={stop}
      problem={problem}
      hint={hint ?? null}
      right={
        go ? (
          <button type="button" class="next" aria-disabled={go.off} onClick={go.act}>
            {go.label}
          </button>
        ) : null
      }
    >
      {children}
      {quiet ? null : <CallSomebody tray={tray.tray} />}
    </Frame>
  );
}

const codeOf = ({ tray, sample }: Portion) => <CodeDigits key="code" code={tray.codes[sample] ?? ""} />;

/** The pause, which ends by itself and counts nothing down; then the mouth is made ready. */
function MouthScreen(props: Props<PortionIn<"mouth">>) {
  const { step, ballot } = props;
  if (step.until !== null) {
    return (
      <Sheet {...props} title={words.rest.title}>
        <p class="lead-in">{words.rest.text}</p>
      </Sheet>
    );
  }
  const { title, text, done } = words.prepare[ballot.ask.mouth];
  return (
    <Sheet {...props} title={title} go={{ label: done, act: () => ballot.prepared() }}>
      <p class="lead-in">{text}</p>
    </Sheet>
  );
}

function BiteScreen(props: Props<PortionIn<"bite">>) {
  const { step, ballot } = props;
  return (
    <Sheet {...props} title={words.bite.title(codeOf(step))}>
      <p class="lead-in">{words.bite.text}</p>
      <button type="button" class="field turn" onClick={() => ballot.bite()}>
        {codeOf(step)}
        <small>{words.bite.touch}</small>
      </button>
    </Sheet>
  );
}

/** No seconds are shown, so that none hurries. The word fills the sheet; whoever spits before it touches the same button. */
function ClockScreen(props: Props<PortionIn<"chew">>) {
  const { step, ballot } = props;
  const go = { label: words.chew.done, act: () => ballot.spat() };
  if (!step.now) {
    return (
      <Sheet {...props} title={words.chew.title} go={go} quiet>
        <p class="lead-in">{words.chew.text}</p>
      </Sheet>
    );
  }
  return (
    <Sheet {...props} title={<span class="spit-now">{words.chew.now}</span>} go={go} quiet>
      <p class="lead-in" aria-live="polite">
        {words.chew.spit(codeOf(step))}
      </p>
      {step.bite === null ? <p>{words.chew.lost}</p> : null}
    </Sheet>
  );
}

function WholeScreen(props: Props<PortionIn<"whole">>) {
  const { step, ballot } = props;
  const [hint, setHint] = useState<string | null>(null);
  const off = step.whole === null;
  const keep = (): void => (off ? setHint(words.whole.pick) : void ballot.keep());
  return (
    <Sheet
      {...props}
      title={words.whole.title}
      hint={off ? hint : null}
      go={{ label: words.whole.keep, act: keep, off }}
    >
      <fieldset class="three" style={{ "--columns": 2 }} aria-labelledby="title">
        {([true, false] as const).map((whole) => (
          <label key={String(whole)} class={step.whole === whole ? "field chosen" : "field"}>
            <input
              class="unseen"
              type="radio"
              name="whole"
              checked={step.whole === whole}
              onChange={() => ballot.say(whole)}
            />
            <span class="said">{whole ? words.whole.yes : words.whole.no}</span>
            <small aria-hidden="true">{step.whole === whole ? words.chosen : ""}</small>
          </label>
        ))}
      </fieldset>
      <p>{words.whole.fine}</p>
    </Sheet>
  );
}

function LidScreen(props: Props<PortionIn<"lid">>) {
  const { step, ballot } = props;
  const { rinseGrams } = ballot.ask;
  return (
    <Sheet {...props} title={words.lid.title(codeOf(step))} go={{ label: words.lid.done, act: () => ballot.closed() }}>
      {rinseGrams === null ? null : <p class="lead-in">{words.lid.rinse(rinseGrams)}</p>}
      <p class="lead-in">{words.lid.close}</p>
    </Sheet>
  );
}
