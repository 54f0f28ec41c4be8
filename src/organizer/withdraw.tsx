import { useState } from "preact/hooks";
import type { DeviceInfo } from "../model/http.ts";
import { focusSoon } from "../ui/focus.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";

/** The question before a device is shut out. The focus goes to No, so that a second Enter does no harm. */
export function Withdraw({ device, onYes }: { device: Pick<DeviceInfo, "id" | "name">; onYes: () => void }) {
  const [asking, setAsking] = useState(false);
  const ids = { button: `withdraw-${device.id}`, no: `withdraw-no-${device.id}` };
  const ask = (now: boolean): void => {
    setAsking(now);
    focusSoon(now ? ids.no : ids.button);
  };
  if (!asking) {
    return (
      <button type="button" class="quiet" id={ids.button} onClick={() => ask(true)}>
        {tabletWords.withdraw}
        <span class="unseen">{tabletWords.withdrawOf(device.name)}</span>
      </button>
    );
  }
  return (
    <fieldset class="asking" aria-label={tabletWords.asking(device.name)}>
      <button type="button" class="quiet" onClick={onYes}>
        {tabletWords.yes}
      </button>{" "}
      <button type="button" class="quiet" id={ids.no} onClick={() => ask(false)}>
        {tabletWords.no}
      </button>
    </fieldset>
  );
}
