import { isAnswerWord, shapeOf } from "../../model/method.ts";
import { answersOf, type BlindPacket } from "../../model/packet.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { choiceAnswers, panelChoice } from "../../words/en/panel-choice.ts";
import { useDesk } from "../desk.ts";
import { cupsOf, type Question } from "../flow.ts";
import type { ChoiceActs } from "./choice-screen.tsx";

type Props = { step: Question; packet: BlindPacket; pick: ChoiceActs["pick"] };

/**
 * Equal fields, one of which is chosen: the codes in serving order, or words. What is tasted but is no answer stands
 * apart: the reference beside codes, all cups above words.
 */
export function Answers({ step, packet, pick }: Props) {
  const answers = answersOf(packet, step.tray);
  const inCodes = shapeOf(packet.method).answer === "code";
  const apart = inCodes ? (packet.reference ? [packet.reference] : []) : cupsOf(step.tray, packet);
  return (
    <div class={inCodes && apart.length > 0 ? "beside" : "above"}>
      {apart.length > 0 ? (
        <div class="cups">
          {inCodes ? null : <p class="fine">{panelChoice.onTray}</p>}
          {apart.map((cup) => (
            <p key={cup} class="cup">
              <CodeDigits code={cup} />
              {inCodes ? <small>{panelChoice.reference}</small> : null}
            </p>
          ))}
        </div>
      ) : null}
      <fieldset class="three" style={{ "--columns": answers.length }} aria-labelledby="title">
        {answers.map((answer) => (
          <Choice key={answer} answer={answer} chosen={step.picked === answer} choose={() => pick(answer)} />
        ))}
      </fieldset>
    </div>
  );
}

function Choice({ answer, chosen, choose }: { answer: string; chosen: boolean; choose: () => void }) {
  const { question } = useDesk().words;
  return (
    <label class={chosen ? "field chosen" : "field"}>
      <input class="unseen" type="radio" name="choice" value={answer} checked={chosen} onChange={choose} />
      {isAnswerWord(answer) ? <span class="none">{choiceAnswers[answer]}</span> : <CodeDigits code={answer} />}
      <small aria-hidden="true">{chosen ? question.chosen : ""}</small>
    </label>
  );
}
