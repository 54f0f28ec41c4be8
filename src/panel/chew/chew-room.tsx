import type { BlindPacket } from "../../model/packet.ts";
import { panelChew } from "../../words/en/panel-chew.ts";
import type { Hands } from "../line/line-ballot.ts";
import type { Acts, LateParts } from "../take-tray.ts";
import { ChewBallot } from "./chew-ballot.ts";
import type { ChewStep } from "./chew-flow.ts";
import { ChewScreen } from "./chew-screen.tsx";

/** What only chewed portions need, in one piece that is loaded by itself: the ballot, its screens and its words. */
export async function openRoom(packet: BlindPacket, hands: Hands): Promise<LateParts> {
  const ballot = new ChewBallot(packet, hands);
  const { chew, pauseSeconds } = packet;
  return {
    ballot,
    Screen: (props: Acts & { step: ChewStep }) => <ChewScreen ballot={ballot} {...props} />,
    rules: chew ? panelChew.rules(chew, pauseSeconds) : [],
  };
}
