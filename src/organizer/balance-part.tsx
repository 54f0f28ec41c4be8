import { useEffect, useRef, useState } from "preact/hooks";
import { type BalanceState, offersBalance } from "../device/balance.ts";
import {
  type BalanceSettings,
  bauds,
  dataBits,
  firstBalanceSettings,
  keepBalanceSettings,
  keptBalanceSettings,
  parities,
  stopBits,
} from "../device/balance-settings.ts";
import { balanceWords as words } from "../words/en/organizer-balance.ts";
import { problemSentence } from "../words/problem-sentence.ts";
import { useLead } from "./app-context.ts";
import { Check, Select } from "./fields.tsx";
import { balance, useBalance } from "./use-balance.ts";

/** The balance on this device: its connection, how it is set, and what was read last. Nothing where no browser offers it. */
export function BalancePart() {
  return offersBalance() ? <Offered /> : null;
}

function Offered() {
  const state = useBalance((all) => all);
  const { settings, set } = useSettings();
  useEffect(() => void balance.look(), []);
  if (!settings) return null;
  return (
    <details class="more cable">
      <summary>{words.summary[state.link]}</summary>
      <p class="fine">{words.hint}</p>
      <Settings settings={settings} set={set} />
      <Buttons state={state} settings={settings} />
      <div role="status">{state.problem ? <p class="wrong">{problemSentence(state.problem)}</p> : null}</div>
      {state.link === "open" ? <Last line={state.last} /> : null}
    </details>
  );
}

/** How the balance is set: as kept on this device, and changed here. */
function useSettings() {
  const { store } = useLead();
  const [settings, setSettings] = useState<BalanceSettings | null>(null);
  const latest = useRef(settings);
  const show = (next: BalanceSettings): void => {
    latest.current = next;
    setSettings(next);
  };
  useEffect(() => void keptBalanceSettings(store).then(show), []);
  const set = (change: Partial<BalanceSettings>): void => {
    const next = { ...(latest.current ?? firstBalanceSettings), ...change };
    show(next);
    void keepBalanceSettings(store, next);
    // whoever looks for the right speed sees at once what comes at it
    if (balance.state().link !== "closed") void balance.connect(next);
  };
  return { settings, set };
}

type SettingsProps = { settings: BalanceSettings; set: (change: Partial<BalanceSettings>) => void };

function Settings({ settings, set }: SettingsProps) {
  const frames = dataBits.flatMap((data) =>
    parities.flatMap((parity) => stopBits.map((stop) => ({ dataBits: data, parity, stopBits: stop }))),
  );
  const nameOf = (frame: Pick<BalanceSettings, "dataBits" | "parity" | "stopBits">): string =>
    `${frame.dataBits} ${frame.parity} ${frame.stopBits}`;
  return (
    <>
      <div class="row">
        <Select
          id="balance-speed"
          label={words.speed}
          value={String(settings.baud)}
          options={bauds.map((baud) => ({ value: String(baud), label: String(baud) }))}
          onChange={(value) => set({ baud: bauds.find((baud) => String(baud) === value) ?? settings.baud })}
        />
        <Select
          id="balance-frame"
          label={words.frame}
          value={nameOf(settings)}
          options={frames.map((frame) => ({
            value: nameOf(frame),
            label: words.frameText(frame.dataBits, frame.parity, frame.stopBits),
          }))}
          onChange={(value) => set(frames.find((frame) => nameOf(frame) === value) ?? {})}
        />
      </div>
      <Check
        id="balance-bare"
        label={words.bare}
        checked={settings.bareGrams}
        onChange={(bareGrams) => set({ bareGrams })}
      />
    </>
  );
}

function Buttons({ state, settings }: { state: BalanceState; settings: BalanceSettings }) {
  if (state.link === "open") {
    return (
      <p class="after-row">
        <button type="button" id="balance-connect" onClick={() => void balance.disconnect()}>
          {words.disconnect}
        </button>
      </p>
    );
  }
  const busy = state.link === "opening";
  return (
    <p class="after-row">
      <button
        type="button"
        id="balance-connect"
        aria-disabled={busy ? "true" : undefined}
        onClick={() => busy || void balance.connect(settings)}
      >
        {words.connect}
      </button>
      {state.known && !busy ? (
        <button type="button" class="quiet" onClick={() => void balance.connect(settings, true)}>
          {words.another}
        </button>
      ) : null}
    </p>
  );
}

/** What came last, as it was understood and as it came. */
function Last({ line }: { line: BalanceState["last"] }) {
  if (line === null) return <p class="fine">{words.lastRead(words.nothing)}</p>;
  const read = line.kind === "reading" ? words.reading(line.grams, line.stable) : words.none(line.why);
  return <p class="fine">{words.lastRead(read, line.text)}</p>;
}
