import type { Moment } from "../../model/attribute.ts";
import { secondsAt } from "../../model/moments.ts";
import type { ProblemData } from "../../model/problem.ts";
import { panelLine as words } from "../../words/en/panel-line.ts";
import { useDesk } from "../desk.ts";
import { Frame } from "../frame.tsx";
import { CallSomebody } from "../help/call-somebody.tsx";
import { Compared } from "../screens/compare.tsx";
import { Tasting } from "../screens/tasting.tsx";
import type { LineBallot } from "./line-ballot.ts";
import { type Chew, isLast, type LineStep, type NoMark, type Take } from "./line-flow.ts";
import { MarkScreen } from "./mark-screen.tsx";
import "./line.css";

type Acts = { differ: () => void; stop: () => void };
type Props<Step> = Acts & { step: Step; ballot: LineBallot; problem: ProblemData | null };

/** The screen of a step of a line scale. */
export function LineScreen({ step, ...rest }: Props<LineStep>) {
  switch (step.at) {
    case "compare":
      return <Compared tray={step.tray} words={words.compare} matches={() => rest.ballot.matches()} {...rest} />;
    case "take":
      return <TakeScreen key={step.sample} step={step} {...rest} />;
    case "chew":
      return <ChewScreen step={step} {...rest} />;
    case "mark":
      return <MarkScreen key={`${step.sample} ${step.item}`} step={step} {...rest} />;
    case "no-mark":
      return <NoMarkScreen step={step} {...rest} />;
  }
}

/** Whose turn it is: its code is touched with the first bite, which is when the chew clock begins. */
function TakeScreen({ step, ballot, problem, differ, stop }: Props<Take>) {
  const { tray, sample, restUntil, again } = step;
  const { ask, packet } = ballot;
  const last = ask.attributes.some(({ moment }) => isLast(moment)) ? words.take.last(packet.swallow) : "";
  return (
    <Tasting
      step={{ tray, touched: sample, restUntil }}
      packet={ballot.packet}
      title={words.take.title}
      now={(code) => (again ? words.take.again : words.take.now)(code, last)}
      problem={problem}
      touch={(code) => ballot.bite(code)}
      differ={differ}
      stop={stop}
    />
  );
}

/** Nothing to do but chew: no seconds are shown, so that none hurries. The question comes by itself. */
function ChewScreen({ step, ballot, problem, stop }: Props<Chew>) {
  const code = step.tray.codes[step.sample] ?? "";
  const { ask, packet } = ballot;
  const moment = ask.attributes[step.item]?.moment;
  if (moment && secondsAt(moment) === null) {
    return <TellScreen step={step} moment={moment} ballot={ballot} problem={problem} stop={stop} />;
  }
  const last = ask.attributes.slice(step.item).some((later) => isLast(later.moment));
  return (
    <Frame title={words.chew.title} tray={step.tray.tray} sample={code} stop={stop} problem={problem}>
      <p class="lead-in">{words.chew.comes}</p>
      <p>{last ? words.chew.ahead(packet.swallow) : words.chew.free[packet.swallow]}</p>
    </Frame>
  );
}

/** A moment that only the panelist knows: they say "now". */
function TellScreen(props: Omit<Props<Chew>, "differ"> & { moment: Moment }) {
  const { step, moment, ballot, problem, stop } = props;
  const { swallow } = ballot.packet;
  const last = !isLast(moment) && ballot.ask.attributes.slice(step.item).some((later) => isLast(later.moment));
  return (
    <Frame
      title={words.chew.title}
      tray={step.tray.tray}
      sample={step.tray.codes[step.sample] ?? ""}
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={() => ballot.missed()}>
          {words.chew.missed}
        </button>
      }
      right={
        <button type="button" class="next" onClick={() => ballot.told()}>
          {words.chew.now}
        </button>
      }
    >
      <p class="lead-in">{words.chew.say(moment, swallow)}</p>
      {last ? <p>{words.chew.ahead(swallow)}</p> : null}
    </Frame>
  );
}

/** Why there is no mark. It is kept as a missing answer, never as a place on the line. */
function NoMarkScreen({ step, ballot, problem, stop }: Props<NoMark>) {
  const { words: common } = useDesk();
  const code = step.tray.codes[step.back.sample] ?? "";
  const reasons = Object.entries(words.noMark.reasons) as [keyof typeof words.noMark.reasons, string][];
  return (
    <Frame
      title={words.noMark.title}
      tray={step.tray.tray}
      sample={code}
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={() => ballot.back()}>
          {common.goBack}
        </button>
      }
      right={
        <button
          type="button"
          class="next"
          aria-disabled={step.why === null}
          onClick={() => (step.why === null ? undefined : void ballot.keep())}
        >
          {words.noMark.keep}
        </button>
      }
    >
      <p>{words.noMark.meaning}</p>
      <fieldset class="reasons" aria-labelledby="title">
        {reasons.map(([reason, label]) => (
          <label key={reason} class="check">
            <input type="radio" name="why" checked={step.why === reason} onChange={() => ballot.because(reason)} />
            <span>{label}</span>
          </label>
        ))}
      </fieldset>
      <CallSomebody tray={step.tray.tray} />
    </Frame>
  );
}
