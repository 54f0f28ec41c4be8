import type { Claim } from "../model/claim.ts";
import { type Drawing, drawings } from "../model/ledger.ts";
import { focusSoon } from "../ui/focus.ts";
import { organizer } from "../words/en/organizer.ts";
import { ledgerWords as words } from "../words/en/organizer-ledger.ts";
import { attachedStudies } from "./claim-edit.ts";
import type { ClaimStudy } from "./claim-results.ts";
import { Select } from "./fields.tsx";
import type { LedgerDraft } from "./ledger-fields.tsx";

/** What the locked plan of a study says of its raw pieces. */
export type SaidOfRaw = { study: string; title: string; drawn: Exclude<Drawing, "unknown"> };

/** What the claim's attached studies say of the draw of raw pieces: those that are locked and say anything. */
export function saidOfRaw(claim: Claim, studies: readonly Pick<ClaimStudy, "id" | "plan" | "waits">[]): SaidOfRaw[] {
  const attached = attachedStudies(claim);
  return studies.flatMap(({ id, plan, waits }) =>
    !attached.includes(id) || waits === "draft" || plan.raw.drawn === "unknown"
      ? []
      : [{ study: id, title: plan.title.trim() || organizer.untitled, drawn: plan.raw.drawn }],
  );
}

/** Was it drawn which raw pieces got which process? Said by hand, or taken from a plan with one press. */
export function Drawn({ hand, said }: { hand: LedgerDraft; said: readonly SaidOfRaw[] }) {
  const { id, ledger, set } = hand;
  const field = `ledger-${id}-drawn`;
  const offered = said.filter(({ drawn }) => drawn !== ledger.drawn);
  return (
    <>
      <Select
        id={field}
        label={words.drawn}
        value={ledger.drawn}
        options={drawings.map((value) => ({ value, label: words.drawings[value] }))}
        onChange={(value) => set({ ...ledger, drawn: drawings.find((each) => each === value) ?? "unknown" })}
      />
      {offered.length > 0 ? <p class="fine">{words.drawnFromHint}</p> : null}
      {offered.map(({ study, title, drawn }) => (
        <p key={study}>
          <button
            type="button"
            class="quiet"
            onClick={() => {
              set({ ...ledger, drawn });
              focusSoon(field);
            }}
          >
            {words.drawnFrom(title, drawn)}
          </button>
        </p>
      ))}
    </>
  );
}
