import { sentenceOf } from "../words/problem-sentence.ts";

/** What went wrong, in the place where it did. Nothing when nothing did. */
export function ProblemNote({ thrown }: { thrown: unknown }) {
  if (thrown === null || thrown === undefined) return null;
  return (
    <p class="wrong" role="alert">
      {sentenceOf(thrown)}
    </p>
  );
}
