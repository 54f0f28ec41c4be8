import { isAnswerWord, shapeOf } from "../model/method.ts";
import { answersOf, type BlindPacket } from "../model/packet.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { paperWords } from "../words/en/organizer-papers.ts";
import { panel } from "../words/en/panel.ts";
import { choiceAnswers, choiceQuestions } from "../words/en/panel-choice.ts";
import { choiceBallot } from "./ballot-words.ts";

const words = paperWords.ballot;

type Props = { packet: BlindPacket; codes: readonly string[]; questions: readonly number[] };

/** The questions of a choice as the tablet asks them, with a box under each answer. `questions`: places from 0. */
export function ChoiceQuestions({ packet, codes, questions }: Props) {
  const asked = choiceQuestions(packet.wording, packet.properties, packet.ranking);
  return (
    <>
      <OnTray packet={packet} codes={codes} />
      {questions.map((at) => (
        <ChoiceQuestion
          key={at}
          packet={packet}
          codes={codes}
          ask={asked.length > 1 ? `${words.question(at + 1)} ${asked[at]}` : (asked[at] ?? "")}
          small={asked.length > 1}
        />
      ))}
    </>
  );
}

/** The cups in the order of tasting, where the answers do not show them: a reference, or answers that are no codes. */
function OnTray({ packet, codes }: Omit<Props, "questions">) {
  const { answer } = shapeOf(packet.method);
  if ((answer === "code" || answer === "order") && packet.reference === null) return null;
  return (
    <p>
      {words.onTray}{" "}
      {[...(packet.reference ? [packet.reference] : []), ...codes].map((cup) => (
        <strong key={cup} class="leaf-cup">
          <CodeDigits code={cup} />
        </strong>
      ))}
    </p>
  );
}

type QuestionProps = Omit<Props, "questions"> & { ask: string; small: boolean };

function ChoiceQuestion({ packet, codes, ask, small }: QuestionProps) {
  if (packet.ranking) return <RankingQuestion packet={packet} codes={codes} ask={ask} ends={packet.ranking} />;
  const answers = answersOf(packet, { codes: [...codes] });
  const pairs = shapeOf(packet.method).answer === "partner";
  return (
    <>
      <p class="leaf-ask">{ask}</p>
      <p>
        {words.tick} {choiceBallot(packet.wording)?.unsure}
      </p>
      <div class={small ? "leaf-answers small" : "leaf-answers"}>
        {answers.map((answer) => (
          <p key={answer} class={pairs ? "leaf-answer pairs" : "leaf-answer"}>
            {pairs ? <Pairing codes={codes} partner={answer} /> : <Answer answer={answer} />}
            <span class="box" aria-hidden="true" />
          </p>
        ))}
      </div>
      {shapeOf(packet.method).guess ? (
        <p>
          <span class="box" aria-hidden="true" /> {panel.question.guess}
        </p>
      ) : null}
      <p>
        <span class="box" aria-hidden="true" /> {panel.question.cannot}
      </p>
    </>
  );
}

type RankingProps = Omit<QuestionProps, "small"> & { ends: NonNullable<BlindPacket["ranking"]> };

/** The codes in serving order, each with a box for the number of its place. */
function RankingQuestion({ packet, codes, ask, ends: { least, most } }: RankingProps) {
  return (
    <>
      <p class="leaf-ask">{ask}</p>
      <p>
        {words.places(codes.length, least.trim(), most.trim())} {choiceBallot(packet.wording)?.unsure}
      </p>
      <div class="leaf-answers places">
        {codes.map((code) => (
          <p key={code} class="leaf-answer">
            <CodeDigits code={code} />
            <span class="box" aria-hidden="true" />
            <span class="small-print">{words.place}</span>
          </p>
        ))}
      </div>
      <p>
        <span class="box" aria-hidden="true" /> {panel.question.cannot}
      </p>
    </>
  );
}

function Answer({ answer }: { answer: string }) {
  return isAnswerWord(answer) ? <span>{choiceAnswers[answer]}</span> : <CodeDigits code={answer} />;
}

/** One way to put four samples into two pairs: the first one with a partner, and the two that are left. */
function Pairing({ codes, partner }: { codes: readonly string[]; partner: string }) {
  const [first = ""] = codes;
  const left = codes.slice(1).filter((code) => code !== partner);
  return (
    <span class="leaf-pairs">
      {[[first, partner], left].map((pair) => (
        <span key={pair[0]}>
          <CodeDigits code={pair[0] ?? ""} /> {words.with} <CodeDigits code={pair[1] ?? ""} />
        </span>
      ))}
    </span>
  );
}
