import { limitsOf, type PotDay } from "../log/day-pots.ts";
import type { WaveDay } from "../log/kitchen-day.ts";
import type { Body } from "../model/event.ts";
import { foodCelsiusPattern } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import { checkCore, checkHolding } from "../model/safety-check.ts";
import { isCooking } from "../model/safety-limit.ts";
import { allowedBelow } from "../model/undercooked.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { limitsText } from "./wave-clock.ts";

const words = onDayWords.reading;

export const readingKinds = words.kinds.map(({ value }) => value);
export type ReadingKind = (typeof readingKinds)[number];

/** What somebody is typing of a reading. Nothing is chosen beforehand but what is usual. */
export type Typed = {
  pot: string | null;
  kind: ReadingKind;
  celsius: string;
  heldSeconds: string;
  restMinutes: string;
  probe: string;
  tray: number | null;
  ago: string;
};
export const nothingTyped: Typed = {
  ...{ pot: null, kind: "core", celsius: "", heldSeconds: "0", restMinutes: "0", probe: "", tray: null, ago: "0" },
};

/** Degrees as they were typed, with a dot; null when they cannot be read. */
export function celsiusOf(typed: string): string | null {
  const text = typed.trim().replace(",", ".").replace("\u2212", "-");
  return foodCelsiusPattern.test(text) ? text : null;
}

export const isLeaving = (kind: ReadingKind): kind is "left" | "left-cold" => kind === "left" || kind === "left-cold";

const wholeOf = (typed: string): number | null => (/^\d{1,5}$/.test(typed.trim()) ? Number(typed) : null);

export type Hindrances = Partial<Record<"pot" | "celsius" | "heldSeconds" | "restMinutes" | "ago", string>>;

/** What is missing before a reading can be kept, by field. */
export function hindrancesOf(typed: Typed): Hindrances {
  const { missing } = words;
  const needsPot = typed.kind !== "serving" && typed.pot === null;
  const number = (value: string) => wholeOf(value) === null;
  const held = typed.kind === "core" && number(typed.heldSeconds);
  const rest = typed.kind === "core" && number(typed.restMinutes);
  return {
    ...(needsPot ? { pot: missing.pot } : {}),
    ...(!isLeaving(typed.kind) && celsiusOf(typed.celsius) === null ? { celsius: missing.celsius } : {}),
    ...(held ? { heldSeconds: missing.number } : {}),
    ...(rest ? { restMinutes: missing.number } : {}),
    ...(isLeaving(typed.kind) && number(typed.ago) ? { ago: missing.number } : {}),
  };
}

export type Entry =
  | { kind: "core-read"; body: Body<"core-read"> }
  | { kind: "heat-left"; body: Body<"heat-left"> }
  | { kind: "holding-read"; body: Body<"holding-read"> }
  | { kind: "serving-read"; body: Body<"serving-read"> };

/**
 * The entry that a sound reading makes. It follows every earlier one of the same thing that this phone knows.
 * Null while something is missing.
 */
export function entryOf(typed: Typed, wave: WaveDay, now: string): Entry | null {
  if (Object.keys(hindrancesOf(typed)).length > 0) return null;
  const { kind } = typed;
  const celsius = celsiusOf(typed.celsius) ?? "";
  const common = { wave: wave.wave, note: "" };
  if (kind === "serving") return { kind: "serving-read", body: { ...common, tray: typed.tray, celsius } };
  const pot = wave.pots.find((each) => each.pot === typed.pot);
  if (!pot) return null;
  if (isLeaving(kind)) {
    const from = kind === "left" ? "hot" : "cold";
    const left = new Date(Date.parse(now) - (wholeOf(typed.ago) ?? 0) * 60_000).toISOString();
    return { kind: "heat-left", body: { ...common, pot: pot.pot, left, from, after: pot.latestLeft } };
  }
  if (kind === "core") {
    const after = pot.cores.filter(({ latest }) => latest).map(({ entry }) => entry.id);
    const held = { heldSeconds: wholeOf(typed.heldSeconds) ?? 0, restMinutes: wholeOf(typed.restMinutes) ?? 0 };
    return {
      kind: "core-read",
      body: { ...common, pot: pot.pot, celsius, ...held, probe: typed.probe.trim(), after },
    };
  }
  // of the pot in whatever wave: the next one follows the one before, wherever that was read
  const after = pot.heldAnywhere
    .filter((read) => read.latest && read.entry.body.held === kind)
    .map(({ entry }) => entry.id);
  return { kind: "holding-read", body: { ...common, pot: pot.pot, held: kind, celsius, read: now, after } };
}

/** The limit beside the number that is typed, with where it comes from; null where the plan has none for it. */
export function limitBeside(kind: ReadingKind, plan: Plan): string | null {
  const limits = limitsOf(plan);
  const at = (rows: typeof limits) =>
    rows.map((row) => words.limitAt(limitWords.text(row), limitWords.origin(row.source, row.checked))).join("; ");
  const kinds = {
    core: "cooking",
    hot: "hot-holding",
    cold: "cold-holding",
    left: "out",
    "left-cold": "out",
    serving: "",
  };
  const rows = limits.filter(
    (limit) =>
      limit.kind === kinds[kind] && (limit.kind !== "out" || limit.from !== (kind === "left" ? "cold" : "hot")),
  );
  return rows.length === 0 ? null : at(rows);
}

/** Do the limits ask how long the core was at a temperature, or how long the food rested? */
export const asksHeld = (plan: Plan): { seconds: boolean; rest: boolean } => {
  const rows = limitsOf(plan).filter(isCooking);
  return {
    seconds: rows.some(({ heldSeconds }) => heldSeconds > 0),
    rest: rows.some(({ restMinutes }) => restMinutes > 0),
  };
};

/** What a kept reading means at once, with what the wave had before it. `stop`: nothing of its wave is served; `allow`: whose name may let it pass. */
export type Said = { text: string; stop: boolean; allow: string | null };

export function saidOf(entry: Entry, plan: Plan, { pots }: Pick<WaveDay, "pots">): Said {
  if (entry.kind === "serving-read") return fine(words.keptServing(entry.body.celsius));
  if (entry.kind === "core-read") return saidOfCore(entry.body, plan);
  const { pot } = entry.body;
  if (entry.kind === "heat-left") return fine(words.keptLeft(pot, entry.body.from, entry.body.left));
  const { held, celsius } = entry.body;
  const limits = limitsOf(plan);
  const check = checkHolding(limits, held, Number(celsius));
  // where there are limits and none of holding, the day stops the wave: see `blocksOfPot`
  if (check.verdict === "no-limit" && limits.length > 0) return stop(words.noHolding(pot, held));
  const before = pots.find((each) => each.pot === pot)?.holdings.filter(({ entry: { body } }) => body.held === held);
  if (check.verdict === "past") return stop(words.past(pot, celsius, onDayWords.degrees(String(check.celsius))));
  if (before?.some(({ verdict }) => verdict.verdict === "past")) return stop(words.pastBefore(pot, held));
  return fine(passed(check.verdict, pot, celsius));
}

const fine = (text: string): Said => ({ text, stop: false, allow: null });
const stop = (text: string): Said => ({ text, stop: true, allow: null });

function saidOfCore({ pot, celsius, heldSeconds, restMinutes }: Body<"core-read">, plan: Plan): Said {
  const check = checkCore(limitsOf(plan), { celsius: Number(celsius), heldSeconds, restMinutes });
  if (check.verdict !== "below") return fine(passed(check.verdict, pot, celsius));
  return { text: words.below(pot, celsius, limitsText(check.rows)), stop: true, allow: allowedBelow(plan) };
}

const passed = (verdict: "met" | "no-limit", pot: string, celsius: string): string =>
  verdict === "met" ? words.passes(pot, celsius) : words.kept(pot, celsius);

/** Pots that something can be read of: those that are served from, the changed ones last. */
export const potsToRead = ({ pots }: WaveDay): PotDay[] => pots.filter(({ toServe }) => toServe.length > 0);
