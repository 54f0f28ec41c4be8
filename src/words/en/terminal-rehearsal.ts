import type { Rehearsal, WorldPlayed } from "../../model/rehearsal.ts";
import { plural } from "./organizer.ts";
import { rehearsalWords as words } from "./organizer-rehearsal.ts";

type Goal = "difference" | "similarity";

/** What `cloche rehearse` says. */
export const rehearsalTerminal = {
  help: `cloche rehearse PLAN: plays a plan with invented people, many times over

What the plan lacks is filled in, so that it can be played early. One half of the studies is played in a world where
there is something to find, the other half where there is nothing. Nothing of it is a result.

  --times N          studies of each half, 10 to 100000 (1000)
  --effect E         what is true in the first half, in the unit of the plan's test: the share who can tell, like 0.3;
                     by how much one side leads; d-prime; of a line scale points between the first product and the last
                     (what the plan seeks)
  --deviation P      line scale: how one mark scatters, in points (as the plan says, else 10)
  --seed TEXT        start of the luck: the same one gives the same studies (drawn anew)
  --through-server   besides, plays the three studies that are shown over HTTP: a server of its own in a folder that is
                     thrown away, a lead, three tablets; what comes back is held against what was answered
  --json             one JSON document with full precision
  -h, --help         this text

  cloche rehearse plan.json --times 2000 --effect 0.4
  cloche rehearse plan.json --through-server`,

  head: ({ seed }: Rehearsal) => `Invented people, nobody tasted anything. Start of the luck: ${seed}`,
  world: (rehearsal: Rehearsal, goal: Goal, which: "rightly" | "wrongly"): string => {
    const world: WorldPlayed = rehearsal[which];
    return [
      `${words.truth(rehearsal.unit, world)} ${words[which](goal, world)}`,
      `  ${words.share(world)} ${words.expected(world)}`,
    ].join("\n");
  },
  examples: words.examples,
  example: (at: number, judgments: number) => words.example(at, judgments),
  through: (trays: number, events: number) =>
    `  Through a server: ${plural(trays, "tray", "trays")} from 3 tablets, ${plural(events, "event", "events")}, all back and as answered; the key fits its seal.`,
  looksLeftOut: "Early looks of the plan are not played through the server: there everybody answers.",
} as const;
