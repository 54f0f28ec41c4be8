import type { KitchenState } from "../log/kitchen.ts";
import { focusSoon } from "../ui/focus.ts";
import { kitchenWords } from "../words/en/organizer-kitchen.ts";
import { differences } from "./kitchen-edit.ts";
import { headingId } from "./page.tsx";
import type { KitchenDraft } from "./use-kitchen.ts";

const words = kitchenWords.versions;

type Props = { state: KitchenState; settle: KitchenDraft["settle"]; nameOf: (device: string) => string };

/**
 * Versions that two leads wrote without knowing of each other: in what they differ, and the choice between them. It
 * stays at the lower edge, so that it is seen wherever somebody is typing when it comes.
 */
export function KitchenVersions({ state: { current, others }, settle, nameOf }: Props) {
  if (!current || others.length === 0) return null;
  const choose = (instead: Parameters<typeof settle>[0]): void => {
    settle(instead);
    focusSoon(headingId);
  };
  return (
    <div class="undo">
      <p>{words.heading(others.length + 1)}</p>
      <ul class="plain">
        {others.map(({ event, device, at, kitchen }) => (
          <li key={event}>
            {words.other(nameOf(device), at, differences(current.kitchen, kitchen))}{" "}
            <button type="button" class="quiet" onClick={() => choose(kitchen)}>
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
