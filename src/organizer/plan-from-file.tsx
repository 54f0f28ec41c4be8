import { useEffect, useRef, useState } from "preact/hooks";
import { focusSoon } from "../ui/focus.ts";
import { planFileWords as words } from "../words/en/plan-file.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { useLead } from "./app-context.ts";
import { beginWithFile } from "./begin-study.ts";

/** Far more than the longest plan; a larger file is something else, and reading it would only take time. */
const mostBytes = 2_000_000;
const problemId = "plan-file-problem";

/** Begins a study with a plan from a file: chosen, or dropped anywhere on the page. What is wrong with it is said here. */
export function PlanFromFile() {
  const lead = useLead();
  const input = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState("");

  async function begin(files: readonly File[]): Promise<void> {
    const [file, ...more] = files;
    if (!file) return;
    const refuse = (sentence: string): void => {
      setWrong(sentence);
      focusSoon(problemId);
    };
    if (more.length > 0) return refuse(words.several);
    if (file.size > mostBytes) return refuse(words.tooLarge(file.name));
    const text = await file.text().catch(() => null);
    if (text === null) return refuse(words.unreadable(file.name));
    try {
      setWrong("");
      await beginWithFile(lead, text, file.name);
    } catch (thrown) {
      refuse(`${sentenceOf(thrown)} ${words.nothing}`);
    }
  }
  const over = useDropped((files) => void begin(files));

  return (
    <>
      <p class="after-row">
        <button type="button" onClick={() => input.current?.click()}>
          {words.begin}
        </button>
        <span class="fine">{words.beginHint}</span>
        <input
          ref={input}
          type="file"
          accept=".json,application/json"
          aria-label={words.begin}
          hidden
          onChange={(event) => {
            const { currentTarget } = event;
            const files = [...(currentTarget.files ?? [])];
            currentTarget.value = ""; // the same file, corrected, can be chosen again
            void begin(files);
          }}
        />
      </p>
      {over ? (
        <p class="note" role="status">
          {words.drop}
        </p>
      ) : null}
      {wrong === "" ? null : (
        <p class="wrong" role="alert" id={problemId} tabIndex={-1}>
          {wrong}
        </p>
      )}
    </>
  );
}

/** Takes files that are dropped anywhere on the page, where a browser would leave it to show them. Is one over it? */
function useDropped(take: (files: readonly File[]) => void): boolean {
  const [over, setOver] = useState(false);
  const latest = useRef(take);
  latest.current = take;
  useEffect(() => {
    const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;
    const drag = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setOver(false);
      latest.current([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener("dragover", drag);
    window.addEventListener("dragleave", leave);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragover", drag);
      window.removeEventListener("dragleave", leave);
      window.removeEventListener("drop", drop);
    };
  }, []);
  return over;
}
