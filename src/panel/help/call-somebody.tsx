import { useEffect, useState } from "preact/hooks";
import { panelHelp as words } from "../../words/en/panel-help.ts";
import { callingNow, callTo, onCalling } from "./calling.ts";

/** The way to call somebody to the tray in hand, what became of the call, and the way to take it back. */
export function CallSomebody({ tray }: { tray: number }) {
  const [calling, setCalling] = useState(callingNow);
  useEffect(() => onCalling(() => setCalling(callingNow())), []);
  const mine = calling.tray === tray;
  const said = { waiting: words.calling, sent: words.called, failed: words.notSent }[calling.at];
  return (
    <div class="call">
      <p role="status">{mine ? said : ""}</p>
      <button type="button" onClick={() => callTo(mine ? null : tray)}>
        {mine ? words.takeBack : words.call}
      </button>
    </div>
  );
}
