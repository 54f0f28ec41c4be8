import { consentOf } from "../design/consent.ts";
import type { Plan } from "../model/plan.ts";
import { organizerConsent as words } from "../words/en/organizer-consent.ts";
import { TextField } from "./fields.tsx";
import type { Draft } from "./use-draft.ts";

/** What people are told before the first sample, and whom they can turn to. */
export function SafetyConsent({ draft }: { draft: Draft }) {
  const { plan, edit } = draft;
  const told = named(plan);
  return (
    <>
      <h3>{words.heading}</h3>
      <p class="fine">{words.lead}</p>
      <TextField
        id="safety-served"
        label={words.served}
        hint={words.servedHint}
        value={plan.served}
        onInput={(served) => edit((before) => ({ ...before, served }))}
      />
      {told === null ? null : <p class="note">{words.names(told)}</p>}
      <TextField
        id="safety-contact"
        label={words.contact}
        hint={words.contactHint}
        value={plan.contact}
        onInput={(contact) => edit((before) => ({ ...before, contact }))}
      />
      <details class="told">
        <summary>{words.preview}</summary>
        <dl class="said">
          {consentOf(plan).lines.map(({ term, text }) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      </details>
    </>
  );
}

/** The first product whose name stands in what people are told, word for word; null where none does. */
function named({ served, products }: Plan): string | null {
  const words = (text: string): string =>
    ` ${text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter(Boolean)
      .join(" ")} `;
  const told = words(served);
  return products.find(({ name }) => name.trim() !== "" && told.includes(words(name)))?.name.trim() ?? null;
}
