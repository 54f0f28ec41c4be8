import { useState } from "preact/hooks";
import type { ScaleSought } from "../model/plan.ts";
import { appVersion } from "../ui/app-version.ts";
import { organizer } from "../words/en/organizer.ts";
import { scale } from "../words/en/organizer-scale.ts";
import { scaleSize } from "../words/en/organizer-scale-size.ts";
import { useLead } from "./app-context.ts";
import { ProblemNote } from "./problem-note.tsx";
import type { EarlierScatter as Scatter } from "./scatter.ts";

const words = scaleSize.earlier;

type State =
  | { at: "closed" }
  | { at: "looking" }
  | { at: "found"; list: Scatter[] }
  | { at: "failed"; thrown: unknown };

/** Offers how marks scattered in opened studies, and the cautious figure beside. The analysis is loaded only then. */
export function EarlierScatter({
  onTake,
}: {
  onTake: (change: Pick<ScaleSought, "deviation" | "seenDeviation" | "from">) => void;
}) {
  const { store } = useLead();
  const [state, setState] = useState<State>({ at: "closed" });
  const look = (): void => {
    setState({ at: "looking" });
    void import("./scatter.ts")
      .then(({ earlierScatters }) => earlierScatters(store, appVersion))
      .then(
        (list) => setState({ at: "found", list }),
        (thrown: unknown) => setState({ at: "failed", thrown }),
      );
  };
  const take = (deviation: number, seen: number | null, from: string): void => {
    onTake({ deviation: tenths(deviation), seenDeviation: seen && tenths(seen), from: from.slice(0, 300) });
    setState({ at: "closed" });
  };
  if (state.at === "closed") {
    return (
      <p class="after">
        <button type="button" class="quiet" onClick={look}>
          {words.show}
        </button>
      </p>
    );
  }
  if (state.at === "failed") return <ProblemNote thrown={state.thrown} />;
  if (state.at === "looking") return <p role="status">{words.looking}</p>;
  if (state.list.length === 0) return <p role="status">{words.none}</p>;
  return (
    <section aria-label={words.list}>
      <ul class="plain">
        {state.list.map((scatter, at) => (
          <Row key={`${scatter.study} ${at}`} scatter={scatter} onTake={take} />
        ))}
      </ul>
      <p class="fine">{words.note}</p>
    </section>
  );
}

const tenths = (value: number): number => Math.round(value * 10) / 10;

type RowProps = { scatter: Scatter; onTake: (deviation: number, seen: number | null, from: string) => void };

function Row({ scatter, onTake }: RowProps) {
  const { title, attribute, moment, people, deviation, atMost, seen } = scatter;
  const row = words.row(title.trim() || organizer.untitled, attribute, moment && scale.momentText(moment));
  return (
    <li>
      {row}: {words.found(deviation, people)}.{" "}
      <button
        type="button"
        class="quiet"
        aria-label={words.takeLabel(deviation, row)}
        onClick={() => onTake(deviation, seen, row)}
      >
        {words.take(deviation)}
      </button>{" "}
      <button
        type="button"
        class="quiet"
        aria-label={words.takeLabel(atMost, row)}
        onClick={() => onTake(atMost, seen && (seen * atMost) / deviation, words.fromCautious(row))}
      >
        {words.takeCautious(atMost)}
      </button>
    </li>
  );
}
