import type { ProblemData } from "../../model/problem.ts";
import { useDesk } from "../desk.ts";
import type { Remark as RemarkStep } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  step: RemarkStep;
  problem: ProblemData | null;
  write: (text: string) => void;
  finish: () => void;
  stop: () => void;
};

/** After the answer is kept, and only then: anything noticed, in the panelist's own words. */
export function Remark({ step, problem, write, finish, stop }: Props) {
  const { words } = useDesk();
  const { remark } = words;
  return (
    <Frame
      title={remark.title}
      tray={step.tray.tray}
      stop={stop}
      problem={problem}
      right={
        <button type="button" class="next" onClick={finish}>
          {remark.go}
        </button>
      }
    >
      {step.kept ? (
        <p class="lead-in">{remark.kept}</p>
      ) : (
        <div class="remark">
          <label for="remark">{remark.label}</label>
          <textarea
            id="remark"
            rows={4}
            maxLength={2000}
            autocomplete="off"
            spellcheck={false}
            value={step.text}
            aria-describedby="remark-note"
            onInput={(event) => write(event.currentTarget.value)}
          />
          <p id="remark-note" class="fine">
            {remark.note}
          </p>
        </div>
      )}
    </Frame>
  );
}
