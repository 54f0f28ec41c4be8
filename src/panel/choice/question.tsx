import { useState } from "preact/hooks";
import { type AnswerShape, shapeOf } from "../../model/method.ts";
import { type BlindPacket, questionsOf } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { choiceBallots, panelChoice } from "../../words/en/panel-choice.ts";
import { useDesk } from "../desk.ts";
import type { Question as QuestionStep } from "../flow.ts";
import { Frame, Meaning } from "../frame.tsx";
import { Answers } from "./answers.tsx";
import type { ChoiceActs } from "./choice-screen.tsx";
import { Pairs } from "./pairs.tsx";
import { Ranking } from "./ranking.tsx";

type Props = { step: QuestionStep; packet: BlindPacket; problem: ProblemData | null; acts: ChoiceActs };

/** Why an answer cannot be kept yet, where a touch on a sample is not one. */
const notYet: Partial<Record<AnswerShape, string>> = {
  partner: panelChoice.pairs.pairFirst,
  order: panelChoice.ranking.placeFirst,
};

/** What the words of a question mean; null where the plan says nothing of them. */
function meaningOf({ properties, ranking }: BlindPacket, question: number) {
  const property = properties[question - 1];
  const definition = (property ?? ranking)?.definition.trim() ?? "";
  if (definition === "") return null;
  const of = property
    ? panelChoice.meaning(property.comparative.trim())
    : panelChoice.ranking.meaning(ranking?.least.trim() ?? "", ranking?.most.trim() ?? "");
  return { of, definition };
}

/** One question of a tray, answered in the shape of its method. It is given codes only, so it cannot show what is what. */
export function Question({ step, packet, problem, acts }: Props) {
  const { question: common } = useDesk().words;
  const { answer, guess } = shapeOf(packet.method);
  const ballot = choiceBallots[packet.wording];
  const comparative = packet.properties[step.question - 1]?.comparative.trim() ?? "";
  const meaning = meaningOf(packet, step.question);
  const [hint, setHint] = useState<string | null>(null);
  const submit = (event: Event): void => {
    event.preventDefault();
    if (step.picked === null) setHint(notYet[answer] ?? common.pickFirst);
    else void acts.keep();
  };
  const pick: ChoiceActs["pick"] = (picked, held = null) => {
    setHint(null);
    acts.pick(picked, held);
  };
  const Body = answer === "partner" ? Pairs : answer === "order" ? Ranking : Answers;
  return (
    <form class="whole" onSubmit={submit}>
      <Frame
        title={ballot?.ask(comparative, packet.ranking ?? undefined)}
        tray={step.tray.tray}
        place={panelChoice.place(step.question, questionsOf(packet, step.tray))}
        stop={() => void acts.stop()}
        problem={problem}
        hint={hint}
        left={
          <button type="button" onClick={() => acts.cannot()}>
            {common.cannot}
          </button>
        }
        right={
          <button type="submit" class="next" aria-disabled={step.picked === null}>
            {common.keep}
          </button>
        }
      >
        {meaning ? <Meaning of={meaning.of}>{meaning.definition}</Meaning> : null}
        {ballot && (ballot.how || ballot.unsure) ? (
          <p class="fine">{[ballot.how, ballot.unsure].filter((line) => line !== "").join(" ")}</p>
        ) : null}
        <Body step={step} packet={packet} pick={pick} />
        {guess ? (
          <label class="check">
            <input type="checkbox" checked={step.guess} onChange={(event) => acts.guess(event.currentTarget.checked)} />
            <span>{common.guess}</span>
          </label>
        ) : null}
      </Frame>
    </form>
  );
}
