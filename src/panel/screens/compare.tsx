import type { ProblemData } from "../../model/problem.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";
import { columnsFor } from "./tasting.tsx";
import "./compare.css";

type Props = {
  tray: Tray;
  words: { title: string; match: string };
  problem: ProblemData | null;
  matches: () => void;
  differ: () => void;
  stop: () => void;
};

/** All codes at once, to be compared with the tray before anything is eaten. */
export function Compared({ tray, words, problem, matches, differ, stop }: Props) {
  const { tasting } = useDesk().words;
  return (
    <Frame
      title={words.title}
      tray={tray.tray}
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={differ}>
          {tasting.differ}
        </button>
      }
      right={
        <button type="button" class="next" onClick={matches}>
          {words.match}
        </button>
      }
    >
      <ul class="three shown" style={{ "--columns": columnsFor(tray.codes.length) }} aria-label={tasting.codes}>
        {tray.codes.map((code) => (
          <li key={code} class="field">
            <CodeDigits code={code} />
          </li>
        ))}
      </ul>
    </Frame>
  );
}
