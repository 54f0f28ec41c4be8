import { organizer, plural } from "./organizer.ts";

/** Words of the tasting day and its rulings. They say how many and when, never what anybody answered. */
const since = (minutes: number): string =>
  minutes < 1
    ? "just now"
    : minutes < 120
      ? `${plural(minutes, "minute", "minutes")} ago`
      : minutes < 2880
        ? `${plural(Math.floor(minutes / 60), "hour", "hours")} ago`
        : `${plural(Math.floor(minutes / 1440), "day", "days")} ago`;

export { spareReasons, voidReasons } from "./reasons.ts";

export const dayWords = {
  back: "Back to the day",
  answered: (answered: number, planned: number) => `${answered} of ${planned} trays answered`,
  andSpares: (count: number) => `and ${plural(count, "spare", "spares")}`,
  sealed: "The key is sealed. This page never shows answers.",
  stage: {
    locked: (at: string) => `locked ${organizer.dayAndTime(at)}`,
    closed: (at: string) => `closed ${organizer.dayAndTime(at)}`,
    revealed: (at: string) => `key opened ${organizer.dayAndTime(at)}`,
  },
  wave: (wave: number, starts: string) => `Wave ${wave}${starts.trim() ? `, ${starts.trim()}` : ""}`,
  ofWave: (answered: number, trays: number) => `${answered} of ${trays}`,
  columns: { tray: "tray", state: "state", tablet: "tablet", time: "time", next: "next" },
  status: {
    waiting: "waiting",
    open: "open",
    answered: "answered",
    stopped: "stopped",
    contested: "answered twice: settle",
    voided: "void",
    replaced: "replaced by a spare",
    unchecked: "on paper",
    late: "late: look",
    spare: "spare",
  },
  /** How far a ballot on paper is; never what it says. */
  paper: {
    once: "typed in once, not checked",
    differs: "typed in twice, not the same: look at the paper again",
    unknown: "typed in at two tablets; whether the same is not known here",
    checked: "from paper, typed in twice the same",
    "after-reveal": "typed in after the reveal: does not count",
  },
  typedAnew: "voided before; since then",
  fromPaper: (tablet: string) => `paper, at ${tablet}`,
  /** Noted as served, and not opened on a tablet yet. */
  atPanelist: "with its panelist",
  spareTray: (label: string) => `${label}, spare`,
  instead: (label: string) => `instead of ${label}`,
  kept: (questions: number, of: number) => `${questions} of ${of} questions`,
  extra: "for one more person",
  thisTablet: (id: string) => `tablet ${id.slice(0, 4)}`,
  unreachable: (at: string | null) =>
    at
      ? `The server has not answered since ${organizer.clock(at)}. Shown is what this device knows.`
      : "The server cannot be reached. Shown is what this device knows.",
  offPlan: (count: number) =>
    `${plural(count, "answer", "answers")} came for a tray or a code that the plan does not have. They are kept and do not count.`,
  rivals: (count: number) =>
    `${plural(count, "event", "events")} came from a second device that locked, closed, opened or took a look at the same time, or after the close. The report names them; they do not count.`,

  tablets: {
    heading: "Tablets",
    none: "No tablet serves this study yet.",
    assign: "Assign one under Tablets",
    unknown: "The list of tablets comes from the server, which cannot be reached.",
    name: "tablet",
    unsent: "not sent",
    seen: "last heard",
    never: "never",
    battery: (share: number) => `battery ${Math.round(share * 100)}${organizer.nb}%${share < 0.2 ? ": low" : ""}`,
    allSent: "all sent",
    notKnown: "not known",
    notSent: (count: number) => String(count),
    since,
    withdrawn: "withdrawn",
  },

  actions: {
    heading: "On the day",
    void: "Void a ballot",
    spare: "Serve a spare tray",
    settle: (count: number) => `Settle ${plural(count, "tray", "trays")} answered twice`,
    admit: (count: number) => `Look at ${plural(count, "late ballot", "late ballots")}`,
    close: "Close the study\u2026",
    open: "Open the key\u2026",
    report: "Read the result",
    papers: "Papers",
    file: "Save the study file",
    copy: "Begin a new study with this plan",
  },
  planHeading: "The plan, as locked",
  allFixed: "All that is fixed, and what can still happen",
  commitment: (hash: string) => `Seal ${(hash.slice(0, 12).match(/.{4}/g) ?? []).join(organizer.nb)}`,

  void: {
    heading: "Void a ballot",
    lead: "A void ballot stays in the log and does not count. The report names tray, reason and note.",
    none: "There is no ballot to void: nobody has opened a tray yet, or all are void.",
    which: "Which ballot?",
    pick: "choose a ballot",
    missing: {
      pick: "Choose the ballot first.",
      gone: "The ballot you chose can no longer be voided: it is void already, or this device no longer knows it. Nothing was done; choose again.",
      reason: "Choose the reason.",
    },
    ballot: (label: string, tablet: string, at: string | null) =>
      `Tray ${label}, ${tablet}${at ? `, ${organizer.clock(at)}` : ""}`,
    reason: "Why?",
    submit: "Void this ballot",
    done: (label: string) => `The ballot of tray ${label} is void. A spare tray can be served instead.`,
    over: "The key is open: no ballot can be voided any more.",
  },
  spare: {
    heading: "Serve a spare tray",
    lead: "Spare trays were drawn at lock and are used in order.",
    none: "No spare tray is left.",
    next: (label: string, wave: number) => `Next is tray ${label}, filled from the batches of wave ${wave}.`,
    reason: "What for?",
    instead: "Instead of tray",
    pick: "choose a tray",
    missing: {
      reason: "Choose what it is served for.",
      instead: "Choose the tray that it replaces.",
      stands: "Void the other ballot first.",
      gone: "The spare tray you were shown was served or opened meanwhile. Nothing was done.",
    },
    stands: (label: string) =>
      `The ballot of tray ${label} still counts. A spare beside it would give one person two answers.`,
    voidFirst: "Void that ballot first",
    another: "Show the next one",
    submit: (label: string) => `Serve tray ${label}`,
    done: (label: string) => `Tray ${label} may be served now.`,
    over: "The study is closed: no tray is served any more.",
  },
  settle: {
    heading: "Trays answered twice",
    lead: "The same tray was answered on two tablets, or on a tablet and on paper. Both ballots are kept; choose by the paper trail which one counts. Answers are not shown.",
    none: "No tray is answered twice.",
    tray: (label: string) => `Tray ${label}`,
    ballot: (tablet: string, opened: string | null, answered: string | null, whole: boolean) =>
      `${tablet}: ${opened ? `opened ${organizer.clock(opened)}, ` : ""}answered ${answered ? organizer.clock(answered) : "at an unknown time"}, ${whole ? "finished" : "not finished"}`,
    paper: (tablet: string, typed: string | null, checked: string | null) =>
      `Paper, typed in at ${tablet}${typed ? ` ${organizer.clock(typed)}` : ""}, checked ${checked ? organizer.clock(checked) : "at an unknown time"}`,
    submit: "This one counts",
    missing: {
      pick: "Choose one of the ballots first.",
      gone: "The ballot you chose is no longer one of these. Nothing was done; choose again.",
    },
    clocks: "Times are those of each tablet\u2019s own clock; a clock can be wrong.",
    over: "The key is open: nothing can be settled any more.",
  },
  admit: {
    heading: "Late ballots",
    lead: "These ballots reached this device after the close. They are kept and do not count unless you admit them, before the key is opened, for a reason that has nothing to do with answers.",
    none: "There is no late ballot.",
    ballot: (label: string, tablet: string, at: string | null) =>
      `Tray ${label}, ${tablet}, answered ${at ? organizer.dayAndTime(at) : "at an unknown time"}`,
    submit: (label: string) => `Admit tray ${label}`,
    missing: "Write why it is admitted.",
    over: "The key is open: nothing can be admitted any more.",
  },
};
