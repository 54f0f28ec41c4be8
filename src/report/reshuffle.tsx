import { useEffect, useRef, useState } from "preact/hooks";
import type { Description } from "../analysis/describe.ts";
import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { computeBeside } from "./computing.ts";

const times = 10_000;
const longestSeed = 60;
const words = reader.reshuffle;

type Step = { at: "asking" } | { at: "under-way"; share: number } | { at: "done" | "failed"; sentences: string[] };

/** For a scale with a test: an F test once more, by shuffling marks within panelists. Nothing is computed unasked. */
export function Reshuffle({ result, said }: { result: ScaleResult; said: Description }) {
  const tested = result.attributes.flatMap((attribute, at) => {
    const heading = said.attributes[at]?.heading;
    return attribute.blocks && heading !== undefined ? [{ attribute, heading }] : [];
  });
  const [chosen, setChosen] = useState(0);
  const [seed, setSeed] = useState("1");
  const [step, setStep] = useState<Step>({ at: "asking" });
  const stop = useRef(new AbortController());
  useEffect(() => () => stop.current.abort(), []);
  const subject = tested[chosen];
  if (!subject || result.outcome === "withheld") return null;

  async function start(event: Event): Promise<void> {
    event.preventDefault();
    if (!subject || step.at === "under-way") return;
    stop.current = new AbortController();
    const { signal } = stop.current;
    setStep({ at: "under-way", share: 0 });
    try {
      const found = await computeBeside(
        { job: "reshuffle", blocks: blocksOf(subject.attribute), products: result.products.length, times, seed },
        { signal, onShare: (share) => setStep({ at: "under-way", share }) },
      );
      setStep({ at: "done", sentences: found ? sentencesOf(subject, seed, found) : [words.nothing] });
    } catch (thrown) {
      setStep({ at: "failed", sentences: [signal.aborted ? words.stopped : sentenceOf(thrown)] });
    }
  }

  return (
    <details
      class={step.at === "done" ? undefined : "screen-only"}
      {...(step.at === "done" ? { "data-print": "" } : {})}
    >
      <summary>{words.heading}</summary>
      <p>{words.asks}</p>
      <p>{words.differs}</p>
      <form class="reshuffle screen-only" onSubmit={(event) => void start(event)}>
        {tested.length > 1 && (
          <label>
            {words.attribute}
            <select value={String(chosen)} onChange={(event) => setChosen(Number(event.currentTarget.value))}>
              {tested.map(({ heading }, at) => (
                <option key={heading} value={String(at)}>
                  {heading}
                </option>
              ))}
            </select>
          </label>
        )}
        <label>
          {words.seed}
          <input
            type="text"
            maxLength={longestSeed}
            value={seed}
            onInput={(event) => setSeed(event.currentTarget.value)}
            aria-describedby="seed-hint"
          />
          <span class="hint" id="seed-hint">
            {words.seedHint}
          </span>
        </label>
        <div class="buttons">
          <button type="submit" aria-disabled={step.at === "under-way"}>
            {words.start(times)}
          </button>
          {step.at === "under-way" && (
            <>
              <button type="button" class="quiet" onClick={() => stop.current.abort()}>
                {words.stop}
              </button>
              <progress value={step.share} max={1} aria-label={words.underWay(step.share)} />
            </>
          )}
        </div>
      </form>
      <div role="status">{"sentences" in step && step.sentences.map((text) => <p key={text}>{text}</p>)}</div>
    </details>
  );
}

type Subject = { attribute: AttributeResult; heading: string };
type Found = { times: number; atLeast: number; pValue: number; error: number };

/** Panelists who take part in the test: those with two products or more. */
const blocksOf = ({ panelists }: AttributeResult): (number | null)[][] =>
  panelists.map(({ values }) => values).filter((values) => values.filter((value) => value !== null).length >= 2);

const sentencesOf = ({ attribute: { blocks }, heading }: Subject, seed: string, found: Found): string[] => [
  words.found({ ...found, subject: heading, seed, fValue: blocks?.fValue ?? 0, byF: blocks?.pValue ?? 1 }),
  ...(found.atLeast === 0 ? [words.least(found.times)] : []),
];
