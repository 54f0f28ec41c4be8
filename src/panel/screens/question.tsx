import { useState } from "preact/hooks";
import { noPreferenceChoice } from "../../model/event.ts";
import { shapeOf } from "../../model/method.ts";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { choiceBallots, choiceQuestions, panelChoice } from "../../words/en/panel-choice.ts";
import { useDesk } from "../desk.ts";
import { choicesOf, type Question as QuestionStep } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  step: QuestionStep;
  packet: BlindPacket;
  problem: ProblemData | null;
  pick: (code: string) => void;
  guess: (guess: boolean) => void;
  cannot: () => void;
  keep: () => void;
  stop: () => void;
};

/** One tray, one choice among equal fields. It is given codes only, so it cannot show which sample is which. */
export function Question({ step, packet, problem, pick, guess, cannot, keep, stop }: Props) {
  const { words } = useDesk();
  const { question } = words;
  const ballot = choiceBallots[packet.wording];
  const choices = choicesOf(step.tray, packet);
  const [hint, setHint] = useState<string | null>(null);
  const submit = (event: Event): void => {
    event.preventDefault();
    if (step.picked === null) setHint(question.pickFirst);
    else keep();
  };
  const choose = (code: string): void => {
    setHint(null);
    pick(code);
  };
  return (
    <form class="whole" onSubmit={submit}>
      <Frame
        title={choiceQuestions(packet.wording, packet.properties)[0]}
        tray={step.tray.tray}
        place={panelChoice.place(1, 1)}
        stop={stop}
        problem={problem}
        hint={hint}
        left={
          <button type="button" onClick={cannot}>
            {question.cannot}
          </button>
        }
        right={
          <button type="submit" class="next" aria-disabled={step.picked === null}>
            {question.keep}
          </button>
        }
      >
        {ballot?.unsure ? <p class="fine">{ballot.unsure}</p> : null}
        <fieldset class="three" style={{ "--columns": choices.length }} aria-labelledby="title">
          {choices.map((code) => (
            <Choice key={code} code={code} chosen={step.picked === code} choose={choose} />
          ))}
        </fieldset>
        {shapeOf(packet.method).guess ? (
          <label class="check">
            <input type="checkbox" checked={step.guess} onChange={(event) => guess(event.currentTarget.checked)} />
            <span>{question.guess}</span>
          </label>
        ) : null}
      </Frame>
    </form>
  );
}

type ChoiceProps = { code: string; chosen: boolean; choose: (code: string) => void };

function Choice({ code, chosen, choose }: ChoiceProps) {
  const { question } = useDesk().words;
  return (
    <label class={chosen ? "field chosen" : "field"}>
      <input class="unseen" type="radio" name="choice" value={code} checked={chosen} onChange={() => choose(code)} />
      {code === noPreferenceChoice ? <span class="none">{question.noPreference}</span> : <CodeDigits code={code} />}
      <small aria-hidden="true">{chosen ? question.chosen : ""}</small>
    </label>
  );
}
