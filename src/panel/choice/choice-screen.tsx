import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { useDesk } from "../desk.ts";
import type { Step } from "../flow.ts";
import { Tasting } from "../screens/tasting.tsx";
import { Cannot } from "./cannot.tsx";
import { Question } from "./question.tsx";
import "./choice.css";

export type ChoiceStep = Extract<Step, { at: "tasting" | "question" | "cannot" }>;

/** What presses do; the session's own. */
export type ChoiceActs = {
  touch: (cup: string) => void;
  differ: () => void;
  pick: (picked: string | null, held?: string | null) => void;
  guess: (guess: boolean) => void;
  cannot: () => void;
  keep: () => Promise<void>;
  back: () => void;
  endWithoutAnswer: () => Promise<void>;
  stop: () => Promise<void>;
};

type Props = { step: ChoiceStep; packet: BlindPacket; problem: ProblemData | null; acts: ChoiceActs };

/** The screen of a step of a choice: the cups in order, a question, or what leaving without an answer means. */
export function ChoiceScreen({ step, packet, problem, acts }: Props) {
  const { titleWithReference, title, now } = useDesk().words.tasting;
  const props = { packet, problem, acts };
  switch (step.at) {
    case "tasting":
      return (
        <Tasting
          step={step}
          packet={packet}
          title={packet.reference ? titleWithReference : title}
          now={now}
          problem={problem}
          touch={(cup) => acts.touch(cup)}
          differ={() => acts.differ()}
          stop={() => void acts.stop()}
        />
      );
    case "question":
      return <Question key={step.question} step={step} {...props} />;
    case "cannot":
      return <Cannot step={step} {...props} />;
  }
}
