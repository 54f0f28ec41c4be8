import type { Attribute } from "../model/attribute.ts";
import { askedAttributes, inOrderOfMoments } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { asksLiking } from "../model/steps.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { lineQuestion } from "./ballot-words.ts";

const words = planWords.scale;

/** A code that stands for any: a sample of the preview. */
const anyCode = "482";

type Props = { attribute: Attribute; swallow: Plan["serving"]["swallow"] };

/** The question, at each of its moments, and the bare line or the steps, as they will look. */
export function ScalePreview({ attribute, swallow }: Props) {
  const { adjective, lowAnchor, highAnchor, form } = attribute;
  const asked = inOrderOfMoments(askedAttributes([attribute]));
  return (
    <figure class="preview">
      <figcaption class="label">{words.preview}</figcaption>
      <blockquote aria-live="polite">
        {adjective.trim() === "" && !asksLiking(form) ? (
          <p>{words.noQuestion}</p>
        ) : (
          asked.map((one) => <p key={one.id}>{lineQuestion(one, anyCode, swallow).join("")}</p>)
        )}
        {form.kind === "line" ? (
          <p class="preview-line">
            <span>{lowAnchor}</span>
            <span class="bare-line" aria-hidden="true" />
            <span>{highAnchor}</span>
          </p>
        ) : (
          <ol class="preview-steps">
            {form.labels.map((label, at) => (
              <li key={at}>{label}</li>
            ))}
          </ol>
        )}
      </blockquote>
    </figure>
  );
}
