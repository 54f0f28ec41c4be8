import { CodeDigits } from "../ui/code-digits.tsx";
import { panelChew } from "../words/en/panel-chew.ts";

/** On paper the server times each portion with a watch: seconds by hand, and whether all of it is in the cup. */
export function ChewQuestions({ codes, seconds }: { codes: readonly string[]; seconds: number }) {
  const { paper, whole } = panelChew;
  return (
    <>
      <p class="leaf-how">{paper.how(seconds)}</p>
      {codes.map((code) => (
        <div key={code} class="leaf-line">
          <p class="leaf-ask">
            <span>
              <CodeDigits code={code} />
            </span>
            <span>
              {paper.seconds} <span class="leaf-sign" />
            </span>
            <span>
              <span class="box" aria-hidden="true" /> {whole.yes} <span class="box" aria-hidden="true" /> {whole.no}
            </span>
          </p>
        </div>
      ))}
    </>
  );
}
