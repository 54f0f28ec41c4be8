import { useState } from "preact/hooks";
import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { useDesk } from "../desk.ts";
import type { Question as QuestionStep } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  step: QuestionStep;
  wording: string;
  problem: ProblemData | null;
  pick: (code: string) => void;
  guess: (guess: boolean) => void;
  cannot: () => void;
  keep: () => void;
  stop: () => void;
};

/** One tray of three codes, one choice. It is given codes only, so it cannot show which sample differs. */
export function Question({ step, wording, problem, pick, guess, cannot, keep, stop }: Props) {
  const { words } = useDesk();
  const { question } = words;
  const ballot = words.ballots[wording];
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
        title={ballot?.ask}
        tray={step.tray.tray}
        place={ballot?.place ?? ""}
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
        <p class="fine">{ballot?.unsure}</p>
        <fieldset class="three" aria-labelledby="title">
          {step.tray.codes.map((code) => (
            <Choice key={code} code={code} chosen={step.picked === code} choose={choose} word={question.chosen} />
          ))}
        </fieldset>
        <label class="check">
          <input type="checkbox" checked={step.guess} onChange={(event) => guess(event.currentTarget.checked)} />
          <span>{question.guess}</span>
        </label>
      </Frame>
    </form>
  );
}

type ChoiceProps = { code: string; chosen: boolean; choose: (code: string) => void; word: string };

function Choice({ code, chosen, choose, word }: ChoiceProps) {
  return (
    <label class={chosen ? "field chosen" : "field"}>
      <input class="unseen" type="radio" name="choice" value={code} checked={chosen} onChange={() => choose(code)} />
      <CodeDigits code={code} />
      <small aria-hidden="true">{chosen ? word : ""}</small>
    </label>
  );
}
