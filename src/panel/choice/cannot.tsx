import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { choiceBallots, panelChoice } from "../../words/en/panel-choice.ts";
import { useDesk } from "../desk.ts";
import type { Step } from "../flow.ts";
import { Frame } from "../frame.tsx";
import { CallSomebody } from "../help/call-somebody.tsx";
import { Lines, Next, Plain } from "../screens/pages.tsx";
import type { ChoiceActs } from "./choice-screen.tsx";

type Props = {
  step: Extract<Step, { at: "cannot" }>;
  packet: BlindPacket;
  problem: ProblemData | null;
  acts: ChoiceActs;
};

/** "I cannot answer": what that means, before it ends the tray. */
export function Cannot({ step, packet, problem, acts }: Props) {
  const { words } = useDesk();
  const { cannot } = panelChoice;
  return (
    <Frame
      title={cannot.title}
      tray={step.tray.tray}
      stop={() => void acts.stop()}
      problem={problem}
      left={<Plain label={cannot.confirm} press={() => void acts.endWithoutAnswer()} />}
      right={<Next label={words.goBack} press={() => acts.back()} />}
    >
      <Lines lines={cannot.lines(choiceBallots[packet.wording]?.cannotTell ?? "", step.back.question)} />
      <CallSomebody tray={step.tray.tray} />
    </Frame>
  );
}
