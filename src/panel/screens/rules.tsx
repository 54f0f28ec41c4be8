import type { BlindPacket } from "../../model/packet.ts";
import type { PanelWords } from "../../words/en/panel.ts";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = { tray: Tray; packet: BlindPacket; begin: () => void; stop: () => void };

/** How to taste, as the plan fixed it; the same lines whatever the tray. */
export function Rules({ tray, packet, begin, stop }: Props) {
  const { words } = useDesk();
  return (
    <Frame
      title={words.rules.title}
      tray={tray.tray}
      stop={stop}
      right={
        <button type="button" class="next" onClick={begin}>
          {words.rules.go}
        </button>
      }
    >
      <ul class="lines">
        {rulesOf(packet, words).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Frame>
  );
}

/** The lines before the first sample, in the order in which they are needed. */
export function rulesOf(packet: BlindPacket, { rules }: PanelWords): string[] {
  return [
    rules.alone,
    rules.rinse(packet.cleanser),
    ...(packet.warmUp ? [packet.reference ? rules.warmUpUnmarked : rules.warmUp] : []),
    orderLine(packet, rules),
    rules.swallow[packet.swallow],
    rules.pause(packet.pauseSeconds),
    packet.retaste ? (packet.line ? rules.retasteOnLine : rules.retaste) : rules.noRetaste,
    rules.stop,
    packet.line || packet.properties.length > 1 ? rules.storedOnLine : rules.stored,
  ];
}

function orderLine({ line, reference }: BlindPacket, { order, orderAfter, orderOnLine }: PanelWords["rules"]): string {
  if (line) return orderOnLine;
  return reference ? orderAfter[reference] : order;
}
