import type { BlindPacket } from "../../model/packet.ts";
import { rulesOf } from "../screens/rule-lines.ts";
import type { Acts, LateParts, TakeParts } from "../take-tray.ts";
import { type Hands, LineBallot, measured } from "./line-ballot.ts";
import type { LineStep } from "./line-flow.ts";
import { LineScreen } from "./line-screen.tsx";

/**
 * What only line scales need, in one piece that is loaded by itself: the ballot, its screens and its words.
 * Throws the Problem when this tablet cannot show the line.
 */
export async function openRoom(packet: BlindPacket, hands: Hands, store: TakeParts["store"]): Promise<LateParts> {
  const ballot = new LineBallot(packet, await measured(store, packet, hands.parts.glass()), hands);
  return {
    ballot,
    Screen: (props: Acts & { step: LineStep }) => <LineScreen ballot={ballot} {...props} />,
    rules: rulesOf(packet),
  };
}
