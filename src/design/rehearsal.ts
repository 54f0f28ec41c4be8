import { analyse } from "../analysis/analyse.ts";
import { choiceStatistics, type OfCounts } from "../analysis/choice.ts";
import { markedChoices } from "../analysis/marking.ts";
import { familyOf } from "../analysis/method.ts";
import { exactInterval } from "../analysis/share-interval.ts";
import { decide, plannedLooks } from "../analysis/stopping.ts";
import { stoppingRule } from "../analysis/stopping-rule.ts";
import { sha256 } from "../model/canonical.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import type { Judgment, StudyRecord } from "../model/record.ts";
import type { EffectUnit, Rehearsal, RehearsalAsked, WorldPlayed } from "../model/rehearsal.ts";
import type { Result } from "../model/result.ts";
import { inventedChoices, inventedMarks, type SeatedTray, type World } from "./invented-panel.ts";
import { blindPacketOf } from "./packet.ts";
import { seeded } from "./random.ts";
import { expectedYes } from "./rehearsal-expected.ts";
import { forRehearsal } from "./rehearsal-plan.ts";
import { sizeTest } from "./size-test.ts";
import { makeTrays } from "./trays.ts";

/** All studies of a rehearsal have this id; real ones are drawn anew each time. */
const study = "00000000-0000-4000-8000-000000000001";
const noHash = "0".repeat(64);
const instant = "2000-01-01T00:00:00.000Z";
const examples = 3;
const confidence = 0.95;

/** Points that one mark scatters where the plan supposes nothing: a starting point, from no source. */
export const usualDeviation = 10;
/** The scatter that a rehearsal of a plan supposes unless told otherwise. */
export const usualScatter = ({ scaleSought }: Plan): number => scaleSought?.deviation ?? usualDeviation;

/** In what the effect of a plan's invented world is counted, and the two worlds that a rehearsal plays unless told otherwise. */
export function usualWorlds(plan: Plan): { unit: EffectUnit; rightly: number; wrongly: number; most: number } {
  const test = sizeTest(plan);
  if (test) return { unit: test.unit, rightly: test.soughtAt, wrongly: test.falseAt, most: test.most };
  if (familyOf(plan.method, plan.sides) === "rank") return { unit: "d-prime", rightly: 1, wrongly: 0, most: 10 };
  return { unit: "points", rightly: plan.scaleSought?.difference ?? 10, wrongly: 0, most: 100 };
}

/**
 * Plays one study with an invented panel: trays are made, dealt and answered, looks are taken where the plan has them,
 * and the answers go through the very analysis that a real study gets.
 *
 * Takes    plan: of `forRehearsal`; seed: of all its luck
 * Throws   as `makeTrays` and `analyse`
 */
export function playStudy(plan: Plan, world: World, seed: string, app: string): StudyRecord {
  return stoppedEarly(played(plan, packetOf(plan), world, seed, app));
}

const packetOf = (plan: Plan): BlindPacket => blindPacketOf(plan, study, [], noHash);

function played(plan: Plan, packet: BlindPacket, world: World, seed: string, app: string): StudyRecord {
  // a key's seed is hex digits, and whoever plays may name any text
  const random = { seed: sha256(seed), codes: seeded(seed, "codes of a rehearsal") };
  const { blind, key, seats } = makeTrays(plan, study, random);
  const seatOf = new Map(seats.flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)));
  const trays = key.trays.flatMap((tray, at): SeatedTray[] => {
    const seat = seatOf.get(tray.tray);
    return seat === undefined ? [] : [{ seat, wave: blind[at]?.wave ?? 1, tray }];
  });
  const luck = seeded(seed, "answers of a rehearsal");
  const marked = familyOf(plan.method, plan.sides) === "scale";
  return {
    study,
    plan,
    packet: { ...packet, trays: blind },
    opened: { key, salt: noHash },
    keyMatches: true,
    commitment: noHash,
    app,
    lockedAt: instant,
    closedAt: instant,
    revealedAt: instant,
    judgments: marked ? [] : inventedChoices(plan, world, trays, luck),
    marks: marked ? inventedMarks(plan, world, trays, luck) : [],
    portions: [],
    weighings: [],
    looks: [],
    masses: null,
    notAnswered: [],
    departures: [],
    otherBatches: [],
    temperatures: [],
  };
}

/** Takes the looks of the plan's stopping rule, and sends everybody home at the one that says stop. */
function stoppedEarly(record: StudyRecord): StudyRecord {
  const rule = stoppingRule(record.plan);
  if (!rule) return record;
  const marked = markedChoices(record);
  const looks: StudyRecord["looks"] = [];
  const counts: { judgments: number; correct: number }[] = [];
  for (const judgments of plannedLooks(rule)) {
    const seen = marked.slice(0, judgments);
    const before = counts.at(-1)?.judgments ?? 0;
    counts.push({ judgments, correct: seen.filter(({ correct }) => correct).length });
    const said = decide(rule, counts) === "go-on" ? "go-on" : "stop";
    looks.push({ event: study, at: instant, trays: seen.slice(before).map(({ tray }) => tray), said });
    if (said === "stop") break;
  }
  const answered = new Set(looks.flatMap(({ trays }) => trays));
  const counted = ({ tray }: Judgment) => answered.has(tray);
  return { ...record, looks, judgments: record.judgments.filter(counted) };
}

type Which = "rightly" | "wrongly";

/** The seed of one study of a rehearsal, counted from 1. Example: seedOfPlay("a", "rightly", 1) // "a rightly 1" */
export const seedOfPlay = (seed: string, world: Which, play: number): string => `${seed} ${world} ${play}`;

/** Does a result say yes: to a difference, or, where that was the goal, to likeness? */
const saysYes = ({ outcome }: Result): boolean => outcome === "reached" || outcome === "within-limit";

/** Computes once for each count: thousands of small studies come to the same few. */
function remembering(ofCounts: OfCounts): OfCounts {
  const known = new Map<string, ReturnType<OfCounts>>();
  return (counts) => {
    const asked = JSON.stringify(counts);
    const found = known.get(asked) ?? ofCounts(counts);
    known.set(asked, found);
    return found;
  };
}

/**
 * Plays a plan's study so many times in a world where a yes is right and as often in one where it is wrong.
 *
 * Takes    asked: see the model; what the plan still lacks is filled in (see `forRehearsal`), so that it can be played
 *          before the food is bought; app: version
 * Yields   after each study: how many are done, of all
 * Returns  see `Rehearsal`; same asked, same app, same rehearsal
 * Throws   as `makeTrays` and `analyse`
 */
export function* rehearse(asked: RehearsalAsked, app: string): Generator<number, Rehearsal> {
  const plan = forRehearsal(asked.plan);
  const packet = packetOf(plan);
  const ofCounts = remembering(choiceStatistics);
  const { unit, wrongly } = usualWorlds(plan);
  const shown: Result[] = [];
  let done = 0;
  function* world(effect: number, name: Which): Generator<number, WorldPlayed> {
    let yes = 0;
    for (let play = 1; play <= asked.plays; play++) {
      const seed = seedOfPlay(asked.seed, name, play);
      const record = played(plan, packet, { effect, deviation: asked.deviation }, seed, app);
      const result = analyse(stoppedEarly(record), app, ofCounts);
      if (saysYes(result)) yes += 1;
      if (name === "rightly" && shown.length < examples) shown.push(result);
      done += 1;
      yield done;
    }
    const estimate = yes / asked.plays;
    return {
      effect,
      plays: asked.plays,
      yes,
      share: { estimate, ...exactInterval(yes, asked.plays, confidence), confidence, kind: "two-sided" },
      expected: expectedYes(plan, { effect, deviation: asked.deviation }),
    };
  }
  return {
    v: 1,
    app,
    seed: asked.seed,
    unit,
    deviation: unit === "points" ? asked.deviation : null,
    // there is but one world of a blank study: nothing differs
    rightly: yield* world(plan.blank ? wrongly : asked.effect, "rightly"),
    wrongly: yield* world(wrongly, "wrongly"),
    examples: shown,
  };
}
