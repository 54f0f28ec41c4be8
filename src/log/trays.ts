import type { Fact } from "../model/event.ts";
import type { BlindPacket, BlindTray } from "../model/packet.ts";
import {
  addToBallot,
  type Ballot,
  fits,
  inTime,
  isBallotFact,
  isComplete,
  isNamed,
  joined,
  judgeBallot,
  type Rulings,
} from "./ballots.ts";
import type { FactOf } from "./fact.ts";
import { fitsPaper, paperBallots } from "./paper.ts";

/** `unchecked`: a ballot on paper was typed in, and no second person has typed the same. */
export type TrayStatus =
  | "waiting"
  | "open"
  | "answered"
  | "stopped"
  | "contested"
  | "voided"
  | "replaced"
  | "unchecked";

export type TrayState = BlindTray & {
  status: TrayStatus;
  ballots: Ballot[];
  /** The ballot that counts, once exactly one does. */
  counted: Ballot | null;
  settled: FactOf<"contest-settled"> | null;
  served: FactOf<"spare-served"> | null;
};

/**
 * Every planned tray as it stands, from the ballots of all devices.
 *
 * Returns  trays by number, and what does not belong to any: answers to trays that the plan does not have, or that
 *          their ballot cannot give
 */
export function foldTrays(sorted: Fact[], packet: BlindPacket | null, rulings: Rulings) {
  const ballots = new Map<string, Ballot>();
  const offPlan: Fact[] = [];
  const planned = packet?.trays ?? [];
  const byNumber = new Map(planned.map((tray) => [tray.tray, tray]));
  const inOrder = sorted.filter(isBallotFact).sort((a, b) => a.seq - b.seq || (a.id < b.id ? -1 : 1));
  for (const fact of inOrder) {
    const tray = byNumber.get(fact.body.tray);
    if (!packet || !tray || !fits(fact, tray, packet)) offPlan.push(fact);
    else addToBallot(ballots, fact, rulings);
  }
  const typings = new Map<number, FactOf<"paper-typed">[]>();
  for (const fact of sorted.filter((one): one is FactOf<"paper-typed"> => one.kind === "paper-typed")) {
    const tray = byNumber.get(fact.body.tray);
    if (!packet || !tray || !fitsPaper(fact, tray, packet)) offPlan.push(fact);
    else typings.set(tray.tray, [...(typings.get(tray.tray) ?? []), fact]);
  }
  const trays = new Map<number, TrayState>();
  for (const tray of planned) {
    const mine = [...ballots.values()]
      .filter((b) => b.tray === tray.tray)
      .sort((a, b) => (a.device < b.device ? -1 : 1));
    const typed = typings.get(tray.tray);
    if (packet && typed) mine.push(...paperBallots(typed, packet, rulings));
    for (const ballot of mine) {
      judgeBallot(ballot, rulings);
      ballot.complete = packet !== null && isComplete(ballot, packet, tray);
    }
    const judged = judgeTray(tray, mine, rulings, packet);
    trays.set(tray.tray, judged);
  }
  takeReplacedOut(trays);
  return { trays, offPlan };
}

/** A tray that a counted spare was served instead of does not count beside it: one person, one answer. */
function takeReplacedOut(trays: Map<number, TrayState>): void {
  const spares = [...trays.values()].filter((tray) => tray.counted && tray.served?.body.instead != null);
  for (const spare of spares) {
    const replaced = trays.get(spare.served?.body.instead ?? 0);
    if (replaced?.counted) trays.set(replaced.tray, { ...replaced, status: "replaced", counted: null });
  }
}

function judgeTray(tray: BlindTray, ballots: Ballot[], rulings: Rulings, packet: BlindPacket | null): TrayState {
  const answered = ballots.filter((b) => b.answered);
  const standing = answered.filter((b) => !b.voided && inTime(b.arrival));
  // a ruling that did not know of one of the ballots is no ruling any more
  const knewOf = (among: string[]) => standing.every((ballot) => among.some((name) => isNamed(ballot, name)));
  const settled =
    rulings.settlements.find((s) => s.body.tray === tray.tray && standing.length > 1 && knewOf(s.body.among)) ?? null;
  const counted =
    standing.length === 1
      ? standing[0]
      : (joined(standing, packet, tray) ?? standing.find((b) => settled && isNamed(b, settled.body.keep)));
  const served = rulings.spares.find((s) => s.body.tray === tray.tray) ?? null;
  return { ...tray, status: statusOf(ballots, standing, counted), ballots, counted: counted ?? null, settled, served };
}

/** A ballot on paper that would count, had a second person typed the same. */
export const isUnchecked = ({ paper, voided }: Pick<Ballot, "paper" | "voided">): boolean =>
  !voided && (paper === "once" || paper === "differs" || paper === "unknown");

function statusOf(ballots: Ballot[], standing: Ballot[], counted: Ballot | undefined): TrayStatus {
  if (counted?.complete) return "answered";
  // some marks of a line scale are there: they count, and the tray may still be going on
  if (counted?.stopped) return "stopped";
  // what is on paper goes no further: what it lacks was left empty
  if (counted) return counted.paper ? "answered" : "open";
  if (standing.length > 1) return "contested";
  if (ballots.some(isUnchecked)) return "unchecked";
  if (ballots.some((b) => b.voided)) return "voided";
  if (ballots.some((b) => b.stopped)) return "stopped";
  return ballots.length > 0 ? "open" : "waiting";
}
