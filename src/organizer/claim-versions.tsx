import type { ClaimState } from "../log/claim.ts";
import { focusSoon } from "../ui/focus.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { differences } from "./claim-edit.ts";
import { headingId } from "./page.tsx";
import type { ClaimDraft } from "./use-claim.ts";

const words = claimWords.versions;

type Props = { state: ClaimState; settle: ClaimDraft["settle"]; nameOf: (device: string) => string };

/** Versions that two browsers wrote without knowing of each other: in what they differ, and the choice between them. */
export function ClaimVersions({ state: { current, others }, settle, nameOf }: Props) {
  if (!current || others.length === 0) return null;
  const choose = (instead: Parameters<typeof settle>[0]): void => {
    settle(instead);
    focusSoon(headingId);
  };
  return (
    <div class="undo no-print">
      <p>{words.heading(others.length + 1)}</p>
      <ul class="plain">
        {others.map(({ event, device, at, claim }) => (
          <li key={event}>
            {words.other(nameOf(device), at, differences(current.claim, claim))}{" "}
            <button type="button" class="quiet" onClick={() => choose(claim)}>
              {words.take}
              <span class="unseen">{words.takeOf(nameOf(device))}</span>
            </button>
          </li>
        ))}
      </ul>
      <button type="button" onClick={() => choose(null)}>
        {words.keep}
      </button>
    </div>
  );
}
