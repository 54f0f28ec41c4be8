import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { ProblemData } from "../../model/problem.ts";
import { useDesk } from "../desk.ts";
import { asTyped } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  problem: ProblemData | null;
  open: (typed: string) => void;
  /** Called when typing begins again, so that a problem goes away. */
  mend: () => void;
  /** No tray may be opened until the lead has seen a notice. */
  closed: boolean;
  /** What the lead or the staff should read; stands below the keypad. */
  notices: ComponentChildren;
  /** Ways to the pages of the staff, at the lower left. */
  tools: ComponentChildren;
};

/** The tablet at rest: nothing of anybody on it, until a tray number with its check digit is given. */
export function Rest({ problem, open, mend, closed, notices, tools }: Props) {
  const { words } = useDesk();
  const [typed, setTyped] = useState("");
  const [hint, setHint] = useState<string | null>(null);
  const change = (edit: (text: string) => string): void => {
    setHint(null);
    mend();
    setTyped((before) => asTyped(edit(before)));
  };
  const submit = (event: Event): void => {
    event.preventDefault();
    if (typed.length < 2) setHint(words.rest.nothingTyped);
    else open(typed);
  };
  useKeys(change);
  if (closed) {
    return (
      <Frame title={words.rest.closedTitle} left={tools}>
        {notices}
      </Frame>
    );
  }
  return (
    <form class="whole" onSubmit={submit}>
      <Frame title={words.rest.title} problem={problem} hint={hint} left={tools}>
        <p class="lead-in">{words.rest.lead}</p>
        <div class="desk">
          <Keypad press={(digit) => change((text) => text + digit)} erase={() => change((text) => text.slice(0, -1))} />
          <div class="entry">
            <label for="tray">{words.rest.field}</label>
            <input
              id="tray"
              class="tray-number"
              type="text"
              inputMode="none"
              autocomplete="off"
              placeholder={words.rest.empty}
              value={typed}
              onInput={(event) => change(() => event.currentTarget.value)}
            />
            <p class="fine">{words.rest.resumed}</p>
            <button type="submit" class="next" aria-disabled={typed.length < 2}>
              {words.rest.open}
            </button>
          </div>
        </div>
        {notices}
      </Frame>
    </form>
  );
}

const digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

/** A finger on the keypad leaves the focus where it is, so that Enter on a keyboard still opens the tray. */
const keepFocus = (event: Event): void => event.preventDefault();

function Keypad({ press, erase }: { press: (digit: string) => void; erase: () => void }) {
  const { words } = useDesk();
  const key = (digit: string) => (
    <button key={digit} type="button" onClick={() => press(digit)}>
      {digit}
    </button>
  );
  return (
    <fieldset class="keypad" aria-label={words.rest.keypad} onMouseDown={keepFocus}>
      {digits.map(key)}
      <button type="button" class="erase" aria-label={words.rest.eraseLast} onClick={erase}>
        {words.rest.erase}
      </button>
      {key("0")}
    </fieldset>
  );
}

/** A keyboard works wherever the focus is; inside the field it works by itself. */
function useKeys(change: (edit: (text: string) => string) => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const inField = event.target instanceof HTMLInputElement;
      if (inField || event.ctrlKey || event.metaKey || event.altKey) return;
      if (/^\d$/.test(event.key)) change((text) => text + event.key);
      else if (event.key === "Backspace") change((text) => text.slice(0, -1));
      else if (event.key === "Enter" && !(event.target instanceof HTMLButtonElement)) {
        document.querySelector("form")?.requestSubmit();
      } else return;
      event.preventDefault();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  });
}
