import type { attendances, batchReasons, haltReasons, trayTurns } from "../../model/kitchen-event.ts";
import { listed, organizer, plural } from "./organizer.ts";

/** Words of the day as kitchen and lead write it down: waves, pots, readings, trays. No product has a name here. */
const { nb } = organizer;

type Turn = (typeof trayTurns)[number];
type Halt = (typeof haltReasons)[number];

const minutes = (count: number): string => {
  const whole = Math.max(0, Math.floor(count));
  return whole < 120
    ? `${whole}${nb}min`
    : `${Math.floor(whole / 60)}${nb}h${whole % 60 === 0 ? "" : `${nb}${whole % 60}${nb}min`}`;
};
const degrees = (celsius: string): string => `${celsius.replace("-", "\u2212")}${nb}\u00b0C`;
const halts: Record<Halt, string> = {
  person: "somebody needs help",
  food: "something is wrong with the food",
  room: "something is wrong in the room",
  other: "for another reason",
};

const turns: Record<Turn, string> = { filled: "filled", checked: "checked", served: "served" };

const potsText = (pots: readonly string[]): string => `${pots.length === 1 ? "pot" : "pots"} ${listed(pots)}`;
const left = { hot: "left the heat", cold: "left the cold" } as const;

export const onDayWords = {
  minutes,
  degrees,
  bar: { studies: "Today" },
  list: {
    heading: "Studies of the day",
    empty: "No study is locked at the moment",
    emptyText: "A study shows here from its lock until its key is opened.",
    offline: "The server cannot be reached. Shown is what this phone knows.",
    waves: (count: number) => plural(count, "wave", "waves"),
  },
  leadsPage: "This page is the lead\u2019s. A phone of the kitchen has the list of today and the day of each study.",
  over: "The key of this study is open: for the kitchen it is over. Nothing more can be written down.",
  noLabels:
    "This study was locked by an older Cloche and its pots have no labels: temperatures cannot be written down here.",
  noLimits: "The plan has no limits of temperature or time. Readings are kept and nothing is judged.",

  wave: {
    startsIn: (count: number) => (count < 1 ? "starts now" : `starts in ${minutes(count)}`),
    began: (count: number) => (count < 1 ? "began just now" : `began ${minutes(count)} ago`),
    turns,
    counts: (filled: number, checked: number, served: number) =>
      `${filled} filled, ${checked} checked, ${served} served`,
    stop: "Stop",
    blocked: (wave: number) => `Wave ${wave} cannot be served:`,
    notYet: (wave: number, parts: readonly string[]) => `Before wave ${wave} can be served: ${listed(parts)}.`,
    readCore: (pots: readonly string[]) => `read the core of ${potsText(pots)}`,
    writeLeft: (pots: readonly string[]) =>
      `write down when ${potsText(pots)} left the heat or the cold, or at what temperature ${pots.length === 1 ? "it is" : "they are"} held`,
    circle: (pots: readonly string[]) =>
      `The changes of ${potsText(pots)} follow each other in a circle: nobody can say which of them is served from. Take back under Pots the one that is wrong. Until then each of them has to pass.`,
    best: {
      before: (count: number) => `At its best in ${minutes(count)}.`,
      until: (at: string, left: number) => `Best until ${organizer.clock(at)}; ${minutes(left)} left.`,
      since: (at: string) => `Past its best since ${organizer.clock(at)}: serve now or cook anew, as the plan says.`,
      unknown: "Best time not known: write down when every pot left the heat.",
      always: "At its best now.",
    },
    safe: (left: number) => `By the limit of safety: ${minutes(left)} left.`,
    pots: "Pots",
    reading: "Add a reading",
    change: "Batch changed",
  },

  block: {
    below: (pot: string, celsius: string, limit: string) =>
      `put pot ${pot} back to the heat and read it again. It read ${degrees(celsius)}, limit ${limit}.`,
    apart: (pot: string) =>
      `two phones wrote different readings of pot ${pot} without knowing of each other. Read it again.`,
    past: (pot: string, held: "hot" | "cold", celsius: string, limit: string) =>
      `pot ${pot}, held ${held}, read ${degrees(celsius)}, limit ${limit}. It is not served, and there is no exception: cook a new batch. If that was typed wrong, take it back under Pots.`,
    noHolding: (pot: string, held: "hot" | "cold") =>
      `pot ${pot} is held ${held}, and the plan has no limit for that. It is not served.`,
    out: (pot: string, count: number, limit: string, from: "hot" | "cold", by: "left" | "held") =>
      by === "left"
        ? `pot ${pot} ${left[from]} ${minutes(count)} ago. ${limit}. It is not served; there is no exception.`
        : `read again what pot ${pot} is kept at: it was last read as kept ${from} ${minutes(count)} ago. ${limit}.`,
    outUnknown: (pot: string) =>
      `no limit of time applies to pot ${pot} by what is known of it. It is not served; ask whoever leads.`,
    halted: (why: Halt) => `serving is halted, ${halts[why]}.`,
  },

  pot: {
    core: (celsius: string, at: string) => `core ${degrees(celsius)} ${at}`,
    left: (from: "hot" | "cold", at: string) => `${left[from]} ${organizer.clock(at)}`,
    held: (how: "hot" | "cold", celsius: string, at: string) => `held ${how} ${degrees(celsius)} ${at}`,
    says: { met: "passes", below: "below the limit", allowed: "allowed below the limit", past: "past the limit" },
    nothing: "nothing written down yet",
    allowedBy: (by: string, at: string) => `allowed by ${by} ${at}`,
    change: (pot: string, at: string) => `in place of ${pot} ${at}`,
    gone: "not served from any more",
    served: (celsius: string, tray: string | null, at: string) =>
      `Served at ${degrees(celsius)}${tray ? `, tray ${tray}` : ""}, ${at}`,
    takeBack: "take back",
    takeBackOf: (what: string) => `: ${what}`,
  },

  reading: {
    heading: (wave: number) => `Wave ${wave}: add a reading`,
    pot: "Which pot?",
    what: "What?",
    kinds: [
      { value: "core", label: "Core temperature", hint: "" },
      { value: "left", label: "Left the heat", hint: "" },
      { value: "left-cold", label: "Left the cold", hint: "" },
      { value: "hot", label: "Kept hot", hint: "" },
      { value: "cold", label: "Kept cold", hint: "" },
      { value: "serving", label: "Temperature as served", hint: "of a cup on its tray" },
    ] as const,
    celsius: "Temperature in \u00b0C",
    limit: (limit: string) => `Limit: ${limit}`,
    noLimit: "The plan has no limit for this: it is kept and not judged.",
    planned: (celsius: string) => `Planned: ${degrees(celsius)}`,
    heldSeconds: "Seconds at that temperature",
    restMinutes: "Minutes of rest afterward",
    probe: "Probe, and when it was last checked",
    probeHint: "Stays for the next reading. May be left empty.",
    tray: "Tray",
    anyTray: "no tray in particular",
    ago: "Minutes ago",
    agoHint: "0 is now.",
    submit: "Keep this reading",
    missing: {
      pot: "Touch the pot first.",
      celsius:
        "Type degrees Celsius, such as 74 or 74.5, and no more than 120. If the probe shows \u00b0F, set it to \u00b0C first.",
      number: "Type a whole number, 0 or more.",
    },
    limitAt: (limit: string, origin: string) => `${limit} (${origin})`,
    passes: (pot: string, celsius: string) => `Pot ${pot}, ${degrees(celsius)}: passes.`,
    kept: (pot: string, celsius: string) => `Pot ${pot}, ${degrees(celsius)}: kept. The plan has no limit for it.`,
    keptLeft: (pot: string, from: "hot" | "cold", at: string) =>
      `Pot ${pot} ${left[from]} at ${organizer.clock(at)}: kept.`,
    timePast: (pot: string) =>
      `Pot ${pot} has been out of temperature for too long, and no later entry undoes that. It is not served, and there is no exception: make a new batch. If an entry was typed wrong, take it back under Pots.`,
    keptServing: (celsius: string) => `${degrees(celsius)} as served: kept.`,
    below: (pot: string, celsius: string, limit: string) =>
      `Put pot ${pot} back to the heat and read it again. It read ${degrees(celsius)}, limit ${limit}.`,
    past: (pot: string, celsius: string, limit: string) =>
      `Pot ${pot} read ${degrees(celsius)}, limit ${limit}. It is not served, and there is no exception: cook a new batch. If that was typed wrong, take it back under Pots.`,
    pastBefore: (pot: string, held: "hot" | "cold") =>
      `Pot ${pot}, held ${held}, was past its limit before, and a later reading does not undo that: cook a new batch. If the earlier one was typed wrong, take it back under Pots.`,
    noHolding: (pot: string, held: "hot" | "cold") =>
      `Pot ${pot} is held ${held}, and the plan has no limit for that. It is not served.`,
    again: "Read this pot again",
    allow: (by: string) => `Allowed by ${by}, as locked`,
    allowHint: (by: string) =>
      `The plan says that this food is undercooked by design, and that ${by} answers for serving it. Touch this only if ${by} allows it: the name goes into the log and the report.`,
    allowed: (pot: string, by: string) => `Pot ${pot} may be served: allowed by ${by}, as locked.`,
  },

  batch: {
    heading: (wave: number) => `Wave ${wave}: batch changed`,
    lead: "Another batch comes in the place of one. It gets a label of its own, which tells nothing, and inherits no reading.",
    pot: "Which pot gives way?",
    reason: "Why?",
    reasons: { recooked: "cooked anew", swapped: "another one stood ready", other: "another reason" } satisfies Record<
      (typeof batchReasons)[number],
      string
    >,
    trays: "For which trays?",
    all: "all of the wave",
    allBut: (labels: readonly string[]) =>
      `Served or being tasted already, and left with the pot they came from: ${labels.length === 1 ? "tray" : "trays"} ${listed(labels)}.`,
    some: "only some",
    submit: "Give it a new label",
    missing: {
      pot: "Touch the pot first.",
      reason: "Choose the reason.",
      trays: "Touch at least one tray, or choose all of the wave.",
      served: "All trays of this pot are served or being tasted. Name those that another batch is for.",
    },
    done: (pot: string, becomes: string) =>
      `The batch in place of ${pot} is ${becomes}. Write ${becomes} on its pot, and read its core before it is served.`,
    none: "No label is free any more.",
  },

  tray: {
    heading: (label: string) => `Tray ${label}`,
    wave: (wave: number) => `Wave ${wave}`,
    moved: (planned: number, wave: number) => `Planned for wave ${planned}, served with wave ${wave}`,
    noWave: (wave: number) =>
      `A note names wave ${wave}, which the plan does not have. The tray is not served before a further note says with which wave it goes.`,
    apart: "Two phones noted different things of this person without knowing of each other. The next note settles it.",
    open: (label: string) => `tray ${label}`,
    codes: "Codes on the tray, in their order",
    turns: "The tray",
    turn: { filled: "Filled", checked: "Checked", served: "Served" } satisfies Record<Turn, string>,
    turnOf: { filled: "Tray filled", checked: "Tray checked", served: "Tray served" } satisfies Record<Turn, string>,
    done: (turn: Turn, at: string) => `${turns[turn]} ${at}`,
    wrong: (at: string) => `check found something wrong ${at}`,
    wrongFirst: "The last check of this tray found something wrong. Put it right and check it again.",
    sound: "Checked: all codes as listed",
    notSound: "Something is wrong with it",
    checkHint: "By a second person, against the blind check list.",
    person: "The person of this tray",
    people: { late: "late", missing: "did not come", here: "here" } satisfies Record<
      (typeof attendances)[number],
      string
    >,
    noted: (what: string, at: string) => `noted: ${what}, ${at}`,
    with: "Serve with",
    withWave: (wave: number) => `with wave ${wave}`,
    own: (wave: number) => `their own wave, ${wave}`,
    other: (wave: number, starts: string) => `wave ${wave}${starts ? `, ${starts}` : ""}`,
    tablet: (names: string) => `On ${names}`,
    rulings: "For the lead",
  },

  move: {
    ask: (count: number, next: number) =>
      `${plural(count, "tray", "trays")} not filled: serve ${count === 1 ? "it" : "them"} with wave ${next}`,
    asking: (trays: readonly string[], next: number) =>
      `Serve ${trays.length === 1 ? "tray" : "trays"} ${listed(trays)} with wave ${next}? ${trays.length === 1 ? "It is" : "They are"} then filled with the food of that wave.`,
    filled: (trays: readonly string[], wave: number) =>
      `${trays.length === 1 ? "Tray" : "Trays"} ${listed(trays)} ${trays.length === 1 ? "is" : "are"} filled already and ${trays.length === 1 ? "stays" : "stay"} with wave ${wave}.`,
    yes: (next: number) => `Yes, with wave ${next}`,
    no: "No, leave them",
  },

  halt: {
    stop: "Stop everything",
    asking: "Stop tasting everywhere? Every tablet shows a notice, and nothing is served.",
    whys: {
      person: "Yes: somebody needs help",
      food: "Yes: something is wrong with the food",
      room: "Yes: something is wrong in the room",
      other: "Yes: another reason",
    } satisfies Record<Halt, string>,
    no: "No, go on",
    halted: (at: string, why: Halt) => `Serving is halted since ${organizer.clock(at)}: ${halts[why]}.`,
    tablets:
      "Tablets show \u201cPlease stop tasting\u201d with their next look at the server, within a quarter of a minute. One without network does not: tell people aloud.",
    person:
      "If somebody is in danger, call the local emergency number now, and give first aid. What happened to a person is written down elsewhere, not in this log.",
    resume: "Go on serving",
    leadResumes: "The lead ends this halt.",
  },

  calls: {
    heading: "Somebody is asked for",
    call: (tray: string, tablet: string) => `Tray ${tray}${tablet ? `, ${tablet}` : ""}`,
  },

  sheets: {
    names: {
      "kitchen-by-product": "Kitchen sheet by product",
      "kitchen-by-tray": "Kitchen sheet by tray",
      "process-draw": "Draw of the raw pieces",
    },
    out: (name: string) => `${name}: printed, not back with the lead yet.`,
    back: (name: string, at: string) => `${name}: back ${organizer.clock(at)}.`,
    submit: "It is back",
  },
};
