import type { BlindPacket } from "../../model/packet.ts";
import { panelRules as rules } from "../../words/en/panel-rules.ts";

/** The lines before the first sample, in the order in which they are needed. Loaded with the ballot that they go before. */
export function rulesOf(packet: BlindPacket): string[] {
  return [
    rules.alone,
    rules.rinse(packet.cleanser),
    ...(packet.warmUp ? [packet.reference ? rules.warmUpUnmarked : rules.warmUp] : []),
    orderLine(packet),
    rules.swallow[packet.swallow],
    rules.pause(packet.pauseSeconds),
    packet.retaste ? (packet.line ? rules.retasteOnLine : rules.retaste) : rules.noRetaste,
    rules.stop,
    packet.line || packet.properties.length > 1 ? rules.storedOnLine : rules.stored,
  ];
}

function orderLine({ line, reference }: BlindPacket): string {
  if (line) return rules.orderOnLine;
  return reference ? rules.orderAfter[reference] : rules.order;
}
