import { advice, askedNext } from "../design/advice.ts";
import type { Plan } from "../model/plan.ts";
import { type Asked, goesBy } from "../model/plan-question.ts";
import { adviceWords as words } from "../words/en/organizer-advice.ts";
import { Choice } from "./fields.tsx";
import { answered } from "./plan-advice.ts";
import type { Draft } from "./use-draft.ts";

/** The planner's plain questions, each as soon as it bears on the advice, and in one line what they lead to. */
export function AskedQuestions({ draft: { plan, edit } }: { draft: Draft }) {
  const { asked } = plan;
  return (
    <>
      <h3>{words.questions.heading}</h3>
      <p class="fine">{words.questions.lead}</p>
      {askedNext(plan).map((question) => (
        <Question
          key={question}
          question={question}
          asked={asked}
          onAnswer={(change) => edit((before) => answered(before, change))}
        />
      ))}
      <AdviceLine plan={plan} />
    </>
  );
}

type QuestionProps = { question: keyof Asked; asked: Asked; onAnswer: (change: Partial<Asked>) => void };

function Question({ question, asked, onAnswer }: QuestionProps) {
  const { legend, options } = words.questions[question];
  return (
    <Choice<string>
      id={`asked-${question}`}
      legend={legend}
      options={options}
      value={asked[question]}
      onChange={(value) => onAnswer({ [question]: value })}
    />
  );
}

/** Said where the answers are given; the reasons, and what it costs, stand with the method. */
export function AdviceLine({ plan }: { plan: Plan }) {
  const given = advice(plan);
  return (
    <p class={given ? "note" : "unseen"} role="status">
      {given
        ? `${words.proposal}: ${words.proposed(given)}. ${
            goesBy(plan, given) ? words.follows : words.differs(plan.method)
          } ${words.partTwo}`
        : ""}
    </p>
  );
}
